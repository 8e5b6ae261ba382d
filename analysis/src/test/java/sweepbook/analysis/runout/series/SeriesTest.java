package sweepbook.analysis.runout.series;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Arrays;
import java.util.OptionalDouble;
import java.util.OptionalInt;
import java.util.Random;
import org.junit.jupiter.api.Test;
import sweepbook.analysis.published.Published;

class SeriesTest {
    /** Published: the worked gauge study of ten parts, three appraisers, three trials. */
    @Test
    void gaugeStudyOfTenPartsAndThreeAppraisers() {
        try (Published study = Published.source("gauge-study-10-3-3.txt")) {
            double[][][] value = new double[10][3][3];
            for (int person = 0; person < 3; person++) {
                for (int trial = 0; trial < 3; trial++) {
                    double[] row = study.data("abc".substring(person, person + 1) + (trial + 1));
                    for (int part = 0; part < 10; part++) {
                        value[part][person][trial] = row[part];
                    }
                }
            }
            GaugeStudy found = GaugeStudy.of(value);
            study.check("parts", found.piece().sumOfSquares());
            study.check("persons", found.person().sumOfSquares());
            study.check("interaction", found.interaction().sumOfSquares());
            study.check("repeats", found.repeat().sumOfSquares());
            study.check(
                    "degrees_of_freedom",
                    found.piece().degreesOfFreedom(),
                    found.person().degreesOfFreedom(),
                    found.interaction().degreesOfFreedom(),
                    found.repeat().degreesOfFreedom());
            study.check(
                    "F_interaction",
                    found.interaction().meanSquare() / found.repeat().meanSquare());
            assertFalse(found.interactionStands());
            study.check("repeatability", found.repeatability_mm());
            study.check("reproducibility", found.reproducibility_mm());
            study.check("measuring", found.measuring_mm());
            study.check("between_parts", found.betweenPieces_mm());
            study.check("distinct_classes", found.distinctClasses());
        }
    }

    /** Simulated truth: the components come back on average, interaction kept where it is large. */
    @Test
    void gaugeStudyFindsAPlantedInteraction() {
        Random random = new Random(11);
        double interaction = 0;
        for (int study = 0; study < 60; study++) {
            double[][][] value = new double[10][4][3];
            double[] person = random.doubles(4).map(v -> random.nextGaussian()).toArray();
            for (double[][] piece : value) {
                double of = 5 * random.nextGaussian();
                for (int j = 0; j < 4; j++) {
                    double both = 2 * random.nextGaussian();
                    for (int k = 0; k < 3; k++) {
                        piece[j][k] = of + person[j] + both + 0.5 * random.nextGaussian();
                    }
                }
            }
            GaugeStudy found = GaugeStudy.of(value);
            assertTrue(found.interactionStands(), "study " + study + " of seed 11");
            interaction += found.reproducibility_mm() * found.reproducibility_mm() / 60;
        }
        assertEquals(1 + 4, interaction, 0.8);
    }

    /** Published: Grubbs' limits and two worked examples. */
    @Test
    void namesTheValueThatDoesNotBelong() {
        try (Published e178 = Published.source("grubbs-e178.txt")) {
            double[] n = e178.data("n");
            e178.check(
                    "one_sided_5",
                    Arrays.stream(n).map(k -> Outlier.limit((int) k, 0.05)).toArray());
            e178.check(
                    "one_sided_2.5",
                    Arrays.stream(n).map(k -> Outlier.limit((int) k, 0.025)).toArray());
            e178.check(
                    "one_sided_1",
                    Arrays.stream(n).map(k -> Outlier.limit((int) k, 0.01)).toArray());
            double[] copper = e178.data("copper");
            e178.check("copper_T10", Outlier.distance(copper, 9));
            assertEquals(OptionalInt.of(9), Outlier.of(copper, 0.10));
            assertEquals(OptionalInt.empty(), Outlier.of(copper, 0.02));
            double[] venus = e178.data("venus");
            e178.check("venus_T1", Outlier.distance(venus, 0));
            e178.check("venus_T15", Outlier.distance(venus, 14));
        }
    }

    /** Law: the definitions, on values whose mean and standard deviation are plain: mean 10, s 1. */
    @Test
    void capabilityIsTheDistanceToTheLimitsInStandardDeviations() {
        double[] value = {9, 10, 11, 9, 10, 11, 10 - Math.sqrt(2.5), 10 + Math.sqrt(2.5), 10, 10};
        Capability both = Capability.of(value, OptionalDouble.of(4), OptionalDouble.of(13));
        assertEquals(1, both.s_mm(), 1e-12);
        assertEquals(9 / 6.0, both.cp().value(), 1e-12);
        assertEquals(1, both.cpk().value(), 1e-12);
        Capability upper = Capability.of(value, OptionalDouble.empty(), OptionalDouble.of(13));
        assertFalse(upper.cp().exists());
        assertEquals(1, upper.cpk().value(), 1e-12);
    }

    /** Simulated truth: the 95 % limits of Cp hold it in 95 % of series, those of Cpk nearly so. */
    @Test
    void confidenceLimitsHoldTheTruth() {
        Random random = new Random(5);
        int cp = 0;
        int cpk = 0;
        int series = 2000;
        for (int k = 0; k < series; k++) {
            double[] value = random.doubles(30).map(v -> random.nextGaussian()).toArray();
            Capability found = Capability.of(value, OptionalDouble.of(-5), OptionalDouble.of(4));
            cp += found.cp().lower() <= 1.5 && 1.5 <= found.cp().upper() ? 1 : 0;
            cpk += found.cpk().lower() <= 4 / 3.0 && 4 / 3.0 <= found.cpk().upper() ? 1 : 0;
        }
        assertEquals(0.95, cp / (double) series, 0.015, "Cp, seed 5");
        assertEquals(0.95, cpk / (double) series, 0.02, "Cpk, seed 5");
    }
}

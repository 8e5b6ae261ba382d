package sweepbook.analysis.uncertainty;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertNotEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Arrays;
import java.util.stream.Collectors;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import sweepbook.analysis.published.Published;
import sweepbook.analysis.uncertainty.Decision.Verdict;

class DecisionTest {
    private static final double INF = Double.POSITIVE_INFINITY;
    private static final Tolerance ZONE = new Tolerance(-0.020, 0.020);

    private static Decision decide(double y, Tolerance zone, GuardBand rule) {
        return Decision.of(new Estimate(y, 0.004, INF), zone, rule);
    }

    /** Published: the probabilities; the decisions are constructed from the rules. */
    @ParameterizedTest
    @ValueSource(ints = {1, -1})
    void casesOfBothEditions_atUpperAndMirroredLowerLimit(int side) {
        try (Published iso = Published.source("iso-14253-1.txt")) {
            double[] y = Arrays.stream(iso.data("y")).map(v -> side * v).toArray();
            iso.check(
                    "p",
                    Arrays.stream(y)
                            .map(v -> decide(v, ZONE, GuardBand.EXPANDED_UNCERTAINTY)
                                    .probability())
                            .toArray());
            for (Tolerance zone :
                    new Tolerance[] {ZONE, side > 0 ? Tolerance.atMost(ZONE.upper()) : Tolerance.atLeast(ZONE.lower())
                    }) {
                iso.checkWords("by_U", verdicts(y, zone, GuardBand.EXPANDED_UNCERTAINTY));
                iso.checkWords("by_1.65u", verdicts(y, zone, GuardBand.ONE_SIDED_95));
            }
        }
    }

    private static String verdicts(double[] y, Tolerance zone, GuardBand rule) {
        return Arrays.stream(y)
                .mapToObj(v -> decide(v, zone, rule).verdict().words())
                .collect(Collectors.joining("; "));
    }

    /** Published: JCGM 106:2012, clause 7. */
    @Test
    void conformanceProbabilities() {
        try (Published jcgm = Published.source("jcgm-106.txt")) {
            double[] v = jcgm.data("voltage_y_u_upper");
            double[] s = jcgm.data("strength_y_u_lower");
            double[] o = jcgm.data("viscosity_y_u_lower_upper");
            jcgm.check("voltage_p", probability(v[0], v[1], Tolerance.atMost(v[2])));
            jcgm.check("strength_p", probability(s[0], s[1], Tolerance.atLeast(s[2])));
            jcgm.check("viscosity_p", probability(o[0], o[1], new Tolerance(o[2], o[3])));
        }
    }

    private static double probability(double y, double u, Tolerance zone) {
        return Decision.of(new Estimate(y, u, INF), zone, GuardBand.ONE_SIDED_95)
                .probability();
    }

    /** Law: a zone narrower than both guard bands has no conforming value, and says so. */
    @Test
    void aZoneTooNarrowForTheUncertaintyNeverConforms() {
        Tolerance narrow = Tolerance.around(0, 0.0079);
        for (double y = -0.03; y <= 0.03; y += 0.0001) {
            Decision decision = decide(y, narrow, GuardBand.EXPANDED_UNCERTAINTY);
            assertFalse(decision.canConform());
            assertNotEquals(Verdict.CONFORMS, decision.verdict(), "at " + y);
        }
        assertTrue(decide(0, ZONE, GuardBand.EXPANDED_UNCERTAINTY).canConform());
    }

    /** Law: fewer degrees of freedom make the guard band wider; an exact result is always decided. */
    @Test
    void fewDegreesOfFreedomWidenTheBand_anExactResultHasNone() {
        Estimate poor = new Estimate(0.0115, 0.004, 3);
        assertEquals(
                Verdict.CANNOT_BE_TOLD,
                Decision.of(poor, ZONE, GuardBand.EXPANDED_UNCERTAINTY).verdict());
        Decision exact = Decision.of(Estimate.exact(0.0201), ZONE, GuardBand.ONE_SIDED_95);
        assertEquals(Verdict.DOES_NOT_CONFORM, exact.verdict());
        assertEquals(0, exact.probability());
        Decision inside = Decision.of(Estimate.exact(0.0199), ZONE, GuardBand.ONE_SIDED_95);
        assertEquals(Verdict.CONFORMS, inside.verdict());
        assertEquals(1, inside.probability());
    }

    @Test
    void aChangeWithinItsUncertaintyIsNotSignificant_beyondItIs() {
        Estimate now = new Estimate(0.010, 0.003, INF);
        assertFalse(Change.between(new Estimate(0.004, 0.003, INF), now).isSignificant());
        assertTrue(Change.between(Estimate.exact(0.004), now).isSignificant());
        assertEquals(
                0.006, Change.between(Estimate.exact(0.004), now).difference().value(), 1e-15);
    }
}

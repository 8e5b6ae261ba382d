package sweepbook.analysis.network;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.function.ToDoubleFunction;
import org.junit.jupiter.api.Test;
import sweepbook.analysis.published.Published;
import sweepbook.analysis.uncertainty.Estimate;
import sweepbook.analysis.uncertainty.Finding;

class NetworkTest {
    private static final double INF = Double.POSITIVE_INFINITY;

    private static Observation observation(String name, String from, String to, double difference, double u) {
        return new Observation(name, from, to, new Estimate(difference, u, INF));
    }

    private static double[] each(Adjustment adjustment, ToDoubleFunction<Residual> value) {
        return adjustment.residuals().stream().mapToDouble(value).toArray();
    }

    private static double[] places(Adjustment adjustment, ToDoubleFunction<Estimate> value, String... points) {
        return Arrays.stream(points)
                .mapToDouble(point -> value.applyAsDouble(
                        adjustment.placeOf(point).asOptional().orElseThrow()))
                .toArray();
    }

    /** Published. */
    @Test
    void levelNet_equalWeightsAndByLength() {
        try (Published net = Published.source("level-net.txt")) {
            double[] length = net.data("length");
            double[] difference = net.data("difference");
            Map<String, Double> fixed = new HashMap<>();
            for (int i = 0; i < 2; i++) {
                fixed.put(net.words("fixed")[i], net.data("fixed_at")[i]);
            }
            List<Observation> equal = new ArrayList<>();
            List<Observation> weighted = new ArrayList<>();
            for (int i = 0; i < length.length; i++) {
                String from = net.words("from")[i];
                String to = net.words("to")[i];
                equal.add(observation("" + (i + 1), from, to, difference[i], 1));
                weighted.add(observation("" + (i + 1), from, to, difference[i], Math.sqrt(length[i] / 12)));
            }
            Adjustment even = new Network(fixed, equal).adjust(Sigma.FROM_SCATTER, Reliability.USUAL);
            net.check("equal_A_B_C", places(even, Estimate::value, "A", "B", "C"));
            net.check("equal_S0", even.sigma0());
            net.check("equal_residuals", each(even, Residual::residual_mm));
            net.check("equal_redundancy", each(even, Residual::redundancy));
            net.check("equal_s_A_B_C", places(even, Estimate::stdU, "A", "B", "C"));
            net.check("equal_normalised", each(even, Residual::normalised));
            assertTrue(even.misfits().isEmpty());

            Adjustment byLength = new Network(fixed, weighted).adjust(Sigma.FROM_SCATTER, Reliability.USUAL);
            net.check("weighted_A_B_C", places(byLength, Estimate::value, "A", "B", "C"));
            net.check("weighted_S0", byLength.sigma0());
            net.check("weighted_redundancy", each(byLength, Residual::redundancy));
            net.check("weighted_s_A_B_C", places(byLength, Estimate::stdU, "A", "B", "C"));
            net.check("weighted_vWv", byLength.sigma0() * byLength.sigma0() * byLength.degreesOfFreedom());
        }
    }

    /** Published. */
    @Test
    void doubleRunLoop_normalisedResiduals_andThePlantedBlunderIsNamed() {
        try (Published loop = Published.source("double-run-loop.txt")) {
            Reliability usual = Reliability.USUAL;
            Adjustment adjusted = loop(loop, 0).adjust(Sigma.AS_STATED, usual);
            loop.check("P4_P3_P2_m", places(adjusted, e -> e.value() / 1000, "P4", "P3", "P2"));
            loop.check("s_P4_P3_P2_mm", places(adjusted, Estimate::stdU, "P4", "P3", "P2"));
            loop.check("degrees_of_freedom", adjusted.degreesOfFreedom());
            double u_mm = loop.datum("u_m") * 1000;
            double sigma_mm = adjusted.sigma0() * u_mm;
            loop.check("sigma_mm", sigma_mm);
            loop.check("pvv_mm2", sigma_mm * sigma_mm * adjusted.degreesOfFreedom());
            loop.check(
                    "adjusted_m",
                    each(adjusted, r -> (r.observation().difference().value() + r.residual_mm()) / 1000));
            loop.check("redundancy", each(adjusted, Residual::redundancy));
            loop.check("w", each(adjusted, Residual::normalised));
            loop.check("smallest_blunder_mm", adjusted.residuals().get(0).detectable_mm());
            loop.check("critical_5_percent", new Reliability(0.05, 0.8).critical());
            int worst = worst(adjusted, -1);
            loop.check("greatest_observation", worst + 1);
            loop.check("greatest_w", Math.abs(adjusted.residuals().get(worst).normalised()));
            assertTrue(adjusted.misfits().isEmpty());

            double[] w = new double[2];
            double[] next = new double[2];
            double[] named = new double[2];
            for (int i = 0; i < 2; i++) {
                Adjustment blundered = loop(loop, loop.data("blunder_m")[i]).adjust(Sigma.AS_STATED, usual);
                assertEquals(1, blundered.misfits().size());
                named[i] = Double.parseDouble(
                        blundered.misfits().get(0).observation().name());
                w[i] = blundered.misfits().get(0).normalised();
                next[i] = Math.abs(blundered
                        .residuals()
                        .get(worst(blundered, (int) named[i] - 1))
                        .normalised());
            }
            loop.check("with_blunder_named", named);
            loop.check("with_blunder_w", w);
            loop.check("with_blunder_next_w", next);
        }
    }

    private static Network loop(Published loop, double blunder_m) {
        List<Observation> observations = new ArrayList<>();
        double[] difference_m = loop.data("difference_m");
        for (int i = 0; i < difference_m.length; i++) {
            double mistake_m = i == 5 ? blunder_m : 0;
            observations.add(observation(
                    "" + (i + 1),
                    loop.words("from")[i],
                    loop.words("to")[i],
                    (difference_m[i] + mistake_m) * 1000,
                    loop.datum("u_m") * 1000));
        }
        return new Network(Map.of(loop.words("fixed")[0], loop.datum("fixed_at_m") * 1000), observations);
    }

    private static int worst(Adjustment adjustment, int but) {
        int worst = but == 0 ? 1 : 0;
        for (int i = 0; i < adjustment.residuals().size(); i++) {
            double w = Math.abs(adjustment.residuals().get(i).normalised());
            if (i != but && w > Math.abs(adjustment.residuals().get(worst).normalised())) {
                worst = i;
            }
        }
        return worst;
    }

    /** Published. */
    @Test
    void reliabilityConstants() {
        try (Published constants = Published.source("reliability.txt")) {
            Reliability[] choices = Arrays.stream(constants.data("alpha"))
                    .mapToObj(alpha -> new Reliability(alpha, constants.datum("power")))
                    .toArray(Reliability[]::new);
            constants.check(
                    "critical",
                    Arrays.stream(choices).mapToDouble(Reliability::critical).toArray());
            constants.check(
                    "delta0",
                    Arrays.stream(choices)
                            .mapToDouble(Reliability::detectableShift)
                            .toArray());
            constants.check(
                    "lambda0",
                    Arrays.stream(choices)
                            .mapToDouble(Reliability::detectableShift)
                            .map(shift -> shift * shift)
                            .toArray());
            double tau = Reliability.tau(2 * 0.05 / 10, 9);
            constants.check("tau_of_9_one_sided_0.05_over_10", tau);
            constants.check("grubbs_of_10", tau * Math.sqrt(0.9));
        }
    }

    /** Law: with no observation to spare nothing is controlled, and the places are the sums. */
    @Test
    void aChainHasNothingToSpare() {
        Network chain = new Network(
                Map.of("a", 10.0), List.of(observation("1", "a", "b", 2, 0.3), observation("2", "c", "b", -1, 0.4)));
        Adjustment adjusted = chain.adjust(Sigma.AS_STATED, Reliability.USUAL);
        assertEquals(13, adjusted.placeOf("c").asOptional().orElseThrow().value(), 1e-12);
        assertEquals(0.5, adjusted.placeOf("c").asOptional().orElseThrow().stdU(), 1e-12);
        assertEquals(2, adjusted.uncontrolled().size());
        assertTrue(adjusted.misfits().isEmpty());
        assertEquals(INF, adjusted.residuals().get(0).detectable_mm());
    }

    @Test
    void pointsThatHangFreeAreNamed_theRestIsSolved() {
        Network two = new Network(
                Map.of("table", 0.0),
                List.of(
                        observation("1", "table", "pin", 5, 0.1),
                        observation("2", "block", "ball", 7, 0.1),
                        observation("3", "block", "ball", 7.1, 0.1)));
        Adjustment adjusted = two.adjust(Sigma.AS_STATED, Reliability.USUAL);
        assertEquals(Map.of("block", List.of("ball", "block")), adjusted.hangingFree());
        assertEquals(5, adjusted.placeOf("pin").asOptional().orElseThrow().value(), 1e-12);
        assertEquals(
                7.05,
                adjusted.difference("block", "ball").asOptional().orElseThrow().value(),
                1e-12);
        assertFalse(adjusted.placeOf("ball").isFound());
        Finding<Estimate> across = adjusted.difference("pin", "ball");
        assertTrue(across instanceof Finding.NotDetermined<Estimate> not
                && not.reason().contains("hang free of each other"));
        assertFalse(adjusted.difference("pin", "nowhere").isFound());
    }

    @Test
    void twoObservationsAgainstEachOtherCannotBeToldApart_bothAreNamed() {
        Network pair = new Network(
                Map.of("a", 0.0), List.of(observation("1", "a", "b", 5, 0.1), observation("2", "a", "b", 6, 0.1)));
        assertEquals(
                List.of("1", "2"),
                pair.adjust(Sigma.AS_STATED, Reliability.USUAL).misfits().stream()
                        .map(residual -> residual.observation().name())
                        .toList());
    }

    /** Law: where the scale comes from one value to spare, nothing can be too large against it. */
    @Test
    void oneValueToSpareNamesNobodyByItsOwnScatter() {
        Network pair = new Network(
                Map.of("a", 0.0), List.of(observation("1", "a", "b", 5, 0.1), observation("2", "a", "b", 6, 0.1)));
        Adjustment adjusted = pair.adjust(Sigma.FROM_SCATTER, Reliability.USUAL);
        assertTrue(adjusted.misfits().isEmpty());
        assertEquals(0.5, adjusted.placeOf("b").asOptional().orElseThrow().stdU(), 1e-12);
        assertEquals(1, adjusted.placeOf("b").asOptional().orElseThrow().degreesOfFreedom());
    }

    /** Law: where a loop has a tail, the tail alone is uncontrolled; its misclosure is the mistake each of it may hold. */
    @Test
    void onlyTheTailOfALoopIsUncontrolled() {
        Network loopWithTail = new Network(
                Map.of("a", 0.0),
                List.of(
                        observation("1", "a", "b", 1, 0.1),
                        observation("2", "b", "c", 1, 0.1),
                        observation("3", "c", "a", -2.05, 0.1),
                        observation("tail", "c", "d", 4, 0.1)));
        Adjustment adjusted = loopWithTail.adjust(Sigma.AS_STATED, Reliability.USUAL);
        assertEquals(
                List.of("tail"),
                adjusted.uncontrolled().stream()
                        .map(residual -> residual.observation().name())
                        .toList());
        assertTrue(Double.isNaN(adjusted.residuals().get(3).mistake_mm()));
        assertEquals(-0.05, adjusted.residuals().get(2).mistake_mm(), 1e-12);
    }

    @Test
    void observationsThatSayNothingAreRefused() {
        assertThrows(IllegalArgumentException.class, () -> observation("1", "a", "a", 5, 0.1));
        assertThrows(IllegalArgumentException.class, () -> observation("1", "a", "b", 5, 0));
    }
}

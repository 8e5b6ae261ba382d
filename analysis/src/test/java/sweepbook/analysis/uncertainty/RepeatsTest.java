package sweepbook.analysis.uncertainty;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.stream.DoubleStream;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;
import sweepbook.analysis.published.Published;

/** Published. */
class RepeatsTest {
    private static Repeats exact(double... values) {
        return new Repeats(DoubleStream.of(values).mapToObj(Estimate::exact).toList());
    }

    @Test
    void voltageStandard_gumH5() {
        try (Published gum = Published.source("gum-h5.txt")) {
            double[] mean = gum.data("mean_less_10V_uV");
            double[] s = gum.data("s_of_5_uV");
            double n = gum.datum("observations_a_day");
            Repeats days = new Repeats(IntStream.range(0, mean.length)
                    .mapToObj(i -> new Estimate(mean[i], s[i] / Math.sqrt(n), n - 1))
                    .toList());
            gum.check("grand_mean_less_10V_uV", days.mean().value());
            gum.check("s_of_means_uV", days.ratio().seen());
            gum.check("s_a_uV", days.ratio().seen() * Math.sqrt(n));
            gum.check("F", days.ratio().value());
            gum.check(
                    "pooled_s_uV",
                    days.ratio().seen() * Math.sqrt(n / days.ratio().value()));
            gum.check("F_95_of_9_and_40", days.ratio().critical());
            gum.check("F_97.5_of_9_and_40", days.ratio().critical(0.975));
            gum.check("between_day_uV", days.ratio().beyond());
            gum.check("u_grand_mean_uV", days.mean().stdU());
            gum.check("degrees_of_freedom", days.mean().degreesOfFreedom());
            assertTrue(days.ratio().isTooLarge());
        }
    }

    @Test
    void twentyTemperatures_gum443() {
        try (Published gum = Published.source("gum-4-4-3.txt")) {
            Repeats temperatures = exact(gum.data("t_C"));
            gum.check("mean", temperatures.mean().value());
            gum.check("s", temperatures.ratio().seen());
            gum.check("s_of_mean", temperatures.mean().stdU());
        }
    }

    @Test
    void largeNearlyConstantValues_andADriftingSeries_nist() {
        try (Published nist = Published.source("nist-spread.txt")) {
            check(nist, "numacc1_mean_s", exact(nist.data("numacc1")));
            for (String set : new String[] {"numacc3", "numacc4"}) {
                double[] first = nist.data(set + "_first_pair");
                double[] all = new double[1 + 2 * (int) nist.datum("pairs")];
                for (int i = 0; i < all.length; i++) {
                    all[i] = i == 0 ? first[0] : first[1 + (i + 1) % 2];
                }
                check(nist, set + "_mean_s", exact(all));
            }
            Repeats drifting = exact(DoubleStream.of(nist.data("mavro_1e-5_above_2"))
                    .map(v -> 2 + v * 1e-5)
                    .toArray());
            nist.check("mavro_mean", drifting.mean().value());
            nist.check("mavro_s", drifting.ratio().seen());
            nist.check("mavro_lag1", drifting.resemblance());
        }
    }

    private static void check(Published nist, String name, Repeats repeats) {
        nist.check(name, repeats.mean().value(), repeats.ratio().seen());
    }

    /** Law. */
    @Test
    void repeatsThatAgreeHaveNothingBetweenThem() {
        Repeats agreeing = new Repeats(List.of(new Estimate(1.0, 0.1, 50), new Estimate(1.05, 0.1, 50)));
        assertFalse(agreeing.ratio().isTooLarge());
        assertEquals(0, agreeing.ratio().beyond());
    }
}

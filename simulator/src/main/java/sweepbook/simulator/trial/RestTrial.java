package sweepbook.simulator.trial;

import java.util.Random;
import java.util.function.DoubleUnaryOperator;
import sweepbook.acquisition.trace.Trace;
import sweepbook.simulator.indicator.Display;

/**
 * A last jog click and the rest after it, of which the truth is known.
 *
 * @param trace what was recorded
 * @param rate_per_s readings a second
 * @param noise_mm standard deviation of a single reading before rounding
 * @param from_s when the click was over
 * @param ideal_s the earliest instant at which waiting longer would not change the level by a tenth of a step: what is
 *     left of a settling is less, and enough readings have come for the mean to be known that well, or twelve seconds
 *     have gone; NaN where it creeps
 * @param level_mm the reading without noise and rounding, by time
 */
public record RestTrial(
        RestKind kind,
        long seed,
        Trace trace,
        double rate_per_s,
        double noise_mm,
        double from_s,
        double ideal_s,
        DoubleUnaryOperator level_mm) {
    private static final double LASTS_S = 20;
    private static final double LONGEST_WAIT_S = 12;
    private static final double TENTH = 0.1;

    /** Makes the rest of a kind from a seed: the same seed gives the same bits. */
    public static RestTrial of(RestKind kind, long seed) {
        Random random = SweepTrials.random(kind, seed);
        Display display = SweepSetUp.display(random);
        double q_mm = display.resolution_mm();
        double noise_mm = q_mm
                * switch (kind) {
                    case COARSE, COARSE_CREEP -> SweepTrials.ratioBetween(0.03, 0.25, random);
                    case NOISY -> SweepTrials.between(1, 2, random);
                    default -> SweepTrials.between(0.3, 0.9, random);
                };
        double rate_per_s = SweepTrials.ratioBetween(2, 2000, random);
        double from_s = SweepTrials.between(1, 2, random);
        Motion motion = Motion.of(kind, q_mm, from_s, random);
        int repeats = kind == RestKind.SLOW_DISPLAY ? 2 + random.nextInt(4) : 1;
        double memory = kind == RestKind.HUMMING ? SweepTrials.between(0.4, 0.8, random) : 0;
        Trace.Builder builder = new Trace.Builder(display.unit(), q_mm);
        double hum_mm = 0;
        double shown_mm = 0;
        int n = (int) ((from_s + LASTS_S) * rate_per_s);
        for (int i = 0; i < n; i++) {
            double time_s = i / rate_per_s;
            hum_mm = memory * hum_mm + Math.sqrt(1 - memory * memory) * noise_mm * random.nextGaussian();
            if (i % repeats == 0) {
                shown_mm = display.shown_mm(motion.level_mm(time_s) + hum_mm);
            }
            boolean spike = kind == RestKind.SPIKES && random.nextDouble() < 0.05;
            builder.add(time_s, spike ? display.shown_mm(shown_mm + SweepTrials.between(-1, 1, random)) : shown_mm);
        }
        double reading_mm = Math.sqrt(noise_mm * noise_mm + q_mm * q_mm / 12);
        double needed = Math.pow(reading_mm / (TENTH * q_mm), 2) * (1 + memory) / (1 - memory) * repeats;
        // A needle that stands on one digit tells no more by standing there longer.
        double known_s = noise_mm < 0.3 * q_mm ? 0 : needed / rate_per_s;
        double ideal_s = from_s + Math.min(LONGEST_WAIT_S, Math.max(known_s, motion.settled_s(TENTH * q_mm)));
        boolean creeps = kind == RestKind.CREEP || kind == RestKind.COARSE_CREEP;
        return new RestTrial(
                kind,
                seed,
                builder.build(),
                rate_per_s,
                noise_mm,
                from_s,
                creeps ? Double.NaN : ideal_s,
                motion::level_mm);
    }

    /** A click, then what goes on after it. */
    private record Motion(
            double level_mm, double click_mm, double from_s, double amount_mm, double decay_s, double rate) {
        static Motion of(RestKind kind, double q_mm, double from_s, Random random) {
            double sign = random.nextBoolean() ? 1 : -1;
            double level_mm = SweepTrials.between(-0.5, 0.5, random);
            double click_mm = Math.max(0.01, 6 * q_mm);
            double decay_s = SweepTrials.between(0.3, 2, random);
            double amount_mm = kind == RestKind.SETTLING ? sign * q_mm * SweepTrials.between(1, 8, random) : 0;
            double rate =
                    switch (kind) {
                        case DRIFT -> SweepTrials.between(0.02, 0.1, random);
                        case CREEP, COARSE_CREEP -> SweepTrials.ratioBetween(0.22, 2, random);
                        default -> 0;
                    };
            return new Motion(level_mm, click_mm, from_s, amount_mm, decay_s, sign * q_mm * rate);
        }

        double level_mm(double time_s) {
            double since_s = time_s - from_s;
            return since_s < 0
                    ? level_mm - click_mm * Math.min(1, -since_s / 0.05)
                    : level_mm - amount_mm * Math.exp(-since_s / decay_s) + amount_mm + rate * since_s;
        }

        /** When what is left of the settling is less than a length. */
        double settled_s(double length_mm) {
            double amount = Math.abs(amount_mm);
            return amount <= length_mm ? 0 : decay_s * Math.log(amount / length_mm);
        }
    }
}

package sweepbook.simulator.trial;

import java.util.Random;

/** How far a part has turned since its first mark passed, as a function of time. */
interface Turning {
    double angle_deg(double time_s);

    /** A spindle at its speed. */
    record Even(double start_deg, double speed_deg_per_s) implements Turning {
        @Override
        public double angle_deg(double time_s) {
            return start_deg + speed_deg_per_s * time_s;
        }
    }

    /** A hand: the speed wanders but never turns back. */
    record ByHand(double start_deg, double speed_deg_per_s, double[] share, double[] pitch_s, double[] phase_rad)
            implements Turning {
        static ByHand of(double start_deg, double speed_deg_per_s, double unevenness, Random random) {
            int waves = 5;
            double[] share = new double[waves];
            double[] pitch_s = new double[waves];
            double[] phase_rad = new double[waves];
            double turn_s = 360 / speed_deg_per_s;
            double sum = 0;
            for (int k = 0; k < waves; k++) {
                share[k] = random.nextDouble();
                sum += share[k];
                // From a wander over two turns to the grip of the hand four times a turn.
                pitch_s[k] = turn_s * SweepTrials.ratioBetween(0.25, 2, random);
                phase_rad[k] = 2 * Math.PI * random.nextDouble();
            }
            for (int k = 0; k < waves; k++) {
                share[k] *= unevenness / sum;
            }
            return new ByHand(start_deg, speed_deg_per_s, share, pitch_s, phase_rad);
        }

        @Override
        public double angle_deg(double time_s) {
            double even_s = time_s;
            for (int k = 0; k < share.length; k++) {
                double rate_per_s = 2 * Math.PI / pitch_s[k];
                even_s -=
                        share[k] / rate_per_s * (Math.cos(rate_per_s * time_s + phase_rad[k]) - Math.cos(phase_rad[k]));
            }
            return start_deg + speed_deg_per_s * even_s;
        }
    }

    /** At an instant the hand rests, or takes the part back by some degrees and goes on from there. */
    record Interrupted(Turning turning, double at_s, double rest_s, double back_deg) implements Turning {
        @Override
        public double angle_deg(double time_s) {
            if (time_s <= at_s) {
                return turning.angle_deg(time_s);
            }
            double u = Math.min(1, (time_s - at_s) / rest_s);
            double way = (1 - Math.cos(Math.PI * u)) / 2;
            return turning.angle_deg(Math.max(at_s, time_s - rest_s)) - back_deg * way;
        }
    }
}

package sweepbook.simulator.trial;

import java.util.Arrays;
import java.util.Random;

/** How far a part has turned since its first mark passed, as a function of time. */
interface Turning {
    double angle_deg(double time_s);

    /**
     * How far the part would be turned further at a time by each thing that nobody knows of such a turning: start, speed and
     * how it wanders, each by one standard deviation.
     */
    double[] unknowns_deg(double time_s);

    /** Of the speed nothing is known beforehand; of the start a degree, for where angle zero lies is no matter to form. */
    private static double[] unknownSpeed_deg(double speed_deg_per_s, double time_s, int more) {
        double[] unknown = new double[2 + more];
        unknown[0] = 1;
        unknown[1] = speed_deg_per_s * time_s;
        return unknown;
    }

    /** A spindle at its speed. */
    record Even(double start_deg, double speed_deg_per_s) implements Turning {
        @Override
        public double angle_deg(double time_s) {
            return start_deg + speed_deg_per_s * time_s;
        }

        @Override
        public double[] unknowns_deg(double time_s) {
            return unknownSpeed_deg(speed_deg_per_s, time_s, 0);
        }
    }

    /** A hand: the speed wanders but never turns back. */
    record ByHand(double start_deg, double speed_deg_per_s, double[] share, double[] pitch_s, double[] phase_rad)
            implements Turning {
        /** From a wander over two turns to the grip of the hand four times a turn. */
        private static final double SHORTEST_TURNS = 0.25;

        private static final double LONGEST_TURNS = 2;
        /** So many waves of all pitches are as good as all of them over the turns that are read. */
        private static final int PITCHES = 60;

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
                pitch_s[k] = turn_s * SweepTrials.ratioBetween(SHORTEST_TURNS, LONGEST_TURNS, random);
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

        /** How much it wanders is known, at which pitches and when is not. */
        @Override
        public double[] unknowns_deg(double time_s) {
            double[] unknown = unknownSpeed_deg(speed_deg_per_s, time_s, 2 * PITCHES);
            double squares = Arrays.stream(share).map(s -> s * s).sum();
            double wave_deg_per_s = speed_deg_per_s * Math.sqrt(squares / 2 / PITCHES);
            for (int k = 0; k < PITCHES; k++) {
                double turns = SHORTEST_TURNS * Math.pow(LONGEST_TURNS / SHORTEST_TURNS, (k + 0.5) / PITCHES);
                double rate_per_s = speed_deg_per_s / 360 * 2 * Math.PI / turns;
                unknown[2 + 2 * k] = wave_deg_per_s / rate_per_s * Math.sin(rate_per_s * time_s);
                unknown[3 + 2 * k] = wave_deg_per_s / rate_per_s * (1 - Math.cos(rate_per_s * time_s));
            }
            return unknown;
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

        @Override
        public double[] unknowns_deg(double time_s) {
            return turning.unknowns_deg(time_s);
        }
    }
}

package sweepbook.analysis.runout.fit;

import sweepbook.analysis.uncertainty.Finding;

/**
 * A stretch in which the readings stand still though at the usual speed the profile would have moved them, whatever
 * part of the turn it was: there the part did not turn.
 */
public final class StandStill {
    /** Arcs looked at, as shares of a turn. */
    private static final double[] ARCS = {1 / 12.0, 1 / 8.0, 1 / 6.0, 1 / 4.0, 1 / 3.0};

    private static final int LEAST_READINGS = 8;
    private static final int STEPS = 720;
    /** The least motion of the profile over the arc, as a variance, must be so many times the noise to be missed. */
    private static final double SURELY_SEEN = 1.5;

    private static final double CHANCE_SIGMAS = 3;

    private StandStill() {}

    /** From when it stood, in seconds, if it did. */
    public static Finding<Double> from_s(Samples samples, Profile profile, double noise_mm, double speed_rad_per_s) {
        int n = samples.size();
        double mean = profile.mean_mm();
        double[] sum = new double[n + 1];
        double[] squares = new double[n + 1];
        for (int i = 0; i < n; i++) {
            double r = samples.reading_mm()[i] - mean;
            sum[i + 1] = sum[i] + r;
            squares[i + 1] = squares[i] + r * r;
        }
        double noise = noise_mm * noise_mm;
        for (double arc : ARCS) {
            double motion = leastVariance(profile, arc);
            double length_s = arc * 2 * Math.PI / speed_rad_per_s;
            if (motion < SURELY_SEEN * noise) {
                continue;
            }
            int to = 0;
            for (int from = 0; from < n; from++) {
                while (to < n && samples.time_s()[to] < samples.time_s()[from] + length_s) {
                    to++;
                }
                int count = to - from;
                if (to == n || count < LEAST_READINGS) {
                    continue;
                }
                double m = (sum[to] - sum[from]) / count;
                double variance = (squares[to] - squares[from]) / count - m * m;
                double still = noise * (1 + CHANCE_SIGMAS * Math.sqrt(2.0 / count));
                double moving = motion * 0.5 + noise * (1 - CHANCE_SIGMAS * Math.sqrt(2.0 / count));
                if (variance < Math.min(still, moving)) {
                    return Finding.found(samples.time_s()[from]);
                }
            }
        }
        return Finding.notDetermined("the readings move throughout");
    }

    /** The least variance of the profile over any arc of the given share of a turn. */
    private static double leastVariance(Profile profile, double arc) {
        double[] f = profile.sampled(STEPS);
        int width = (int) Math.round(arc * STEPS);
        double least = Double.POSITIVE_INFINITY;
        for (int from = 0; from < STEPS; from++) {
            double sum = 0;
            double squares = 0;
            for (int i = 0; i < width; i++) {
                double v = f[(from + i) % STEPS] - profile.mean_mm();
                sum += v;
                squares += v * v;
            }
            least = Math.min(least, squares / width - sum / width * sum / width);
        }
        return least;
    }
}

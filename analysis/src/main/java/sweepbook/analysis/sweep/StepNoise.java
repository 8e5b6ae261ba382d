package sweepbook.analysis.sweep;

import org.hipparchus.util.FastMath;

/**
 * The noise of a trace of few readings, where windows of neighbours hardly fit into a rest: from the steps between readings. Some
 * are of a rest, and as great as noise makes them; the others of a motion, and as great as it likes. Which is which is weighed by
 * turns with how great the noise is (expectation and maximization, Dempster, Laird and Rubin 1977). A calm motion shows in steps,
 * but little in the third differences.
 */
final class StepNoise {
    /** In a trace of more readings, windows tell it. */
    private static final int MANY = 1000;

    private static final int ROUNDS = 40;
    private static final double LEAST_SHARE = 1e-3;

    private StepNoise() {}

    /**
     * The differences of a rest.
     *
     * @param noise_mm standard deviation of a reading that makes them
     * @param logLikelihood of all differences
     */
    private record Rest(double noise_mm, double logLikelihood) {}

    /**
     * Standard deviation of a reading about the motion, its rounding included.
     *
     * @param most_mm which it is at most
     * @param least_mm which it is at least; where nothing is, the most is all that is known
     */
    static double of(double[] reading_mm, double most_mm, double least_mm) {
        if (reading_mm.length > MANY || !(least_mm > 0) || !(most_mm > least_mm)) {
            return most_mm;
        }
        double[] steps = differences(reading_mm);
        double[] third = differences(differences(steps));
        // Their variances are 2 and 1 + 9 + 9 + 1 times that of a reading.
        double calm_mm = Math.min(most_mm, rest(third, FastMath.sqrt(20), most_mm, least_mm).noise_mm);
        Rest much = rest(steps, FastMath.sqrt(2), calm_mm, least_mm);
        Rest little = rest(steps, FastMath.sqrt(2), least_mm, least_mm);
        return Math.min(calm_mm, (little.logLikelihood > much.logLikelihood ? little : much).noise_mm);
    }

    private static double[] differences(double[] of) {
        double[] differences = new double[Math.max(0, of.length - 1)];
        for (int i = 0; i < differences.length; i++) {
            differences[i] = of[i + 1] - of[i];
        }
        return differences;
    }

    /**
     * Which of the differences are of a rest.
     *
     * @param scale by how much their standard deviation is that of a reading
     * @param begin_mm noise with which the weighing begins
     */
    private static Rest rest(double[] differences, double scale, double begin_mm, double least_mm) {
        int n = differences.length;
        double mean_mm = 0;
        for (double difference : differences) {
            mean_mm += Math.abs(difference) / scale / n;
        }
        double noise_mm = begin_mm;
        double share = 0.5;
        double log = 0;
        if (mean_mm == 0) {
            return new Rest(least_mm, log);
        }
        for (int round = 0; round < ROUNDS; round++) {
            double variance_mm2 = noise_mm * noise_mm;
            double density = share * FastMath.sqrt(2 / (FastMath.PI * variance_mm2));
            double ofRest = 0;
            double squares = 0;
            log = 0;
            for (double difference : differences) {
                double step_mm = Math.abs(difference) / scale;
                double rest = density * FastMath.exp(-step_mm * step_mm / (2 * variance_mm2));
                double motion = (1 - share) * mean_mm / ((mean_mm + step_mm) * (mean_mm + step_mm));
                double weight = rest / (rest + motion);
                ofRest += weight;
                squares += weight * step_mm * step_mm;
                log += FastMath.log(rest + motion);
            }
            share = Math.max(LEAST_SHARE, Math.min(1 - LEAST_SHARE, ofRest / n));
            noise_mm = Math.max(least_mm, FastMath.sqrt(squares / Math.max(ofRest, LEAST_SHARE)));
        }
        return new Rest(noise_mm, log);
    }
}

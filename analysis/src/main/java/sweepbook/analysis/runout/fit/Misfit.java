package sweepbook.analysis.runout.fit;

/**
 * What a fit leaves that noise does not: residuals that stay on one side for a while, because the part did not turn as
 * was thought, or does not repeat. Looked at in blocks of a twenty-fourth of a turn.
 *
 * @param structure_mm root mean square of that part of the residuals
 * @param noise_mm root mean square of the rest
 * @param inflation by how much more a mean over many readings scatters than their noise alone would let it, a variance
 *     ratio, not below 1
 * @param worst_s the time at which it is worst
 * @param slip_rad greatest angle by which a whole turn of readings lies off the profile: what shifts all readings of a
 *     turn alike is not in it
 * @param slip_s the time at which that turn begins
 */
public record Misfit(
        double structure_mm, double noise_mm, double inflation, double worst_s, double slip_rad, double slip_s) {
    private static final double BLOCK_RAD = 2 * Math.PI / 24;
    private static final int SLOPES = 720;
    /** With fewer blocks chance alone makes the ratio large. */
    private static final int LEAST_BLOCKS = 12;
    /** Twice the standard deviation of the ratio for the blocks of one turn. */
    private static final double CHANCE = 1.6;
    /** Parts of a turn in which readings of all turns are put together. */
    private static final int SECTORS = 72;

    private static final double CHANCE_SIGMAS = 2.5;

    public static Misfit of(TurnFit fit, Samples samples) {
        double[] slip = slip(fit, samples);
        double[] residual = fit.residuals_mm();
        double[] angle = fit.angles_rad();
        double between = 0;
        double within = 0;
        double structure = 0;
        int readings = 0;
        int blocks = 0;
        double worst = 0;
        double worst_s = samples.from_s();
        for (int from = 0; from < residual.length; ) {
            int to = from;
            double sum = 0;
            while (to < residual.length && Math.abs(angle[to] - angle[from]) < BLOCK_RAD) {
                sum += residual[to++];
            }
            int n = Math.max(1, to - from);
            double mean = sum / n;
            if (n > 2) {
                for (int i = from; i < to; i++) {
                    within += (residual[i] - mean) * (residual[i] - mean);
                }
                readings += n - 1;
                between += n * mean * mean;
                structure += mean * mean;
                blocks++;
                if (Math.abs(mean) > worst) {
                    worst = Math.abs(mean);
                    worst_s = samples.time_s()[from];
                }
            }
            from += n;
        }
        if (blocks < LEAST_BLOCKS) {
            return new Misfit(0, fit.scatter_mm(), repeating(fit), worst_s, slip[0], slip[1]);
        }
        double noise = within / readings;
        double scatter = fit.scatter_mm() * fit.scatter_mm();
        double ratio = between / blocks / Math.max(noise, 1e-18);
        double perBlock = (double) (readings + blocks) / blocks;
        double left = Math.sqrt(Math.max(0, structure / blocks - noise / perBlock));
        return new Misfit(
                left,
                Math.sqrt(noise),
                Math.max(ratio > CHANCE ? Math.max(1, between / blocks / scatter) : 1, repeating(fit)),
                worst_s,
                slip[0],
                slip[1]);
    }

    /**
     * As inflation, of what comes back at the same angle in every turn: where noise is small against the display's step
     * its rounding does, and more turns tell nothing new.
     */
    private static double repeating(TurnFit fit) {
        double[] residual = fit.residuals_mm();
        double[] angle = fit.angles_rad();
        double[] sum = new double[SECTORS];
        int[] count = new int[SECTORS];
        for (int i = 0; i < residual.length; i++) {
            double turned = angle[i] / (2 * Math.PI);
            int sector = (int) ((turned - Math.floor(turned)) * SECTORS) % SECTORS;
            sum[sector] += residual[i];
            count[sector]++;
        }
        double between = 0;
        int sectors = 0;
        for (int s = 0; s < SECTORS; s++) {
            between += count[s] == 0 ? 0 : sum[s] * sum[s] / count[s];
            sectors += count[s] == 0 ? 0 : 1;
        }
        int free = sectors - 1 - 2 * fit.profile().upr().length;
        if (free < SECTORS / 4) {
            return 1;
        }
        double ratio = between / free / (fit.scatter_mm() * fit.scatter_mm());
        return ratio > 1 + CHANCE_SIGMAS * Math.sqrt(2.0 / free) ? ratio : 1;
    }

    /** The greatest slip, and when; turns are looked at one by one from the first reading. */
    private static double[] slip(TurnFit fit, Samples samples) {
        double[] residual = fit.residuals_mm();
        double[] angle = fit.angles_rad();
        Profile profile = fit.profile();
        double[] slope = new double[SLOPES];
        for (int i = 0; i < SLOPES; i++) {
            slope[i] = (profile.at(2 * Math.PI * (i + 1) / SLOPES) - profile.at(2 * Math.PI * (i - 1) / SLOPES))
                    * SLOPES
                    / (4 * Math.PI);
        }
        double[] worst = {0, samples.from_s()};
        for (int from = 0; from < residual.length; ) {
            double along = 0;
            double square = 0;
            int to = from;
            for (; to < residual.length && angle[to] - angle[from] < 2 * Math.PI; to++) {
                double turned = angle[to] / (2 * Math.PI);
                double here = slope[(int) ((turned - Math.floor(turned)) * SLOPES) % SLOPES];
                along += here * residual[to];
                square += here * here;
            }
            if (to < residual.length && square > 0 && Math.abs(along / square) > Math.abs(worst[0])) {
                worst[0] = Math.abs(along / square);
                worst[1] = samples.time_s()[from];
            }
            from = Math.max(to, from + 1);
        }
        return worst;
    }
}

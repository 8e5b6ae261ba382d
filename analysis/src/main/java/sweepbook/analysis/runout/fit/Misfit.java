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
 */
public record Misfit(double structure_mm, double noise_mm, double inflation, double worst_s) {
    private static final double BLOCK_RAD = 2 * Math.PI / 24;
    /** With fewer blocks chance alone makes the ratio large. */
    private static final int LEAST_BLOCKS = 12;
    /** Twice the standard deviation of the ratio for the blocks of one turn. */
    private static final double CHANCE = 1.6;

    public static Misfit of(TurnFit fit, Samples samples) {
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
            return new Misfit(0, fit.scatter_mm(), 1, worst_s);
        }
        double noise = within / readings;
        double ratio = between / blocks / Math.max(noise, 1e-18);
        double perBlock = (double) (readings + blocks) / blocks;
        double left = Math.sqrt(Math.max(0, structure / blocks - noise / perBlock));
        return new Misfit(left, Math.sqrt(noise), ratio > CHANCE ? ratio : 1, worst_s);
    }
}

package sweepbook.analysis.sweep;

import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import java.util.stream.IntStream;
import org.hipparchus.util.FastMath;
import sweepbook.analysis.uncertainty.Estimate;

/**
 * How probable each level is for the crest that all passes share: any of them may be worse than it owns up to, or all together
 * by a common factor, or tell of something else, and the stop on the crest is heard beside them.
 */
final class CrestDistribution {
    private static final double[] ALL_WORSE = {1, 1.5};
    private static final double[] ALL_WORSE_SHARE = {0.95, 0.05};
    private static final double NODES_OF_U = 8;
    private static final int MOST_NODES = 1500;
    /** In standard uncertainties: beyond, a pass says nothing. */
    private static final double WITHIN = 5;
    /** In log probability below another: what adds nothing to it. */
    private static final double NOTHING = 40;
    /** Degrees of freedom that a pass adds to the coverage factor: its uncertainty is itself told from few readings. */
    private static final double FREEDOM = 6;

    private final List<PassCrest> passes;
    private final Agreement agreement;
    private final Optional<CrestStop> stop;
    private final double near_mm;

    /** @param near_mm passes that are no farther off are averaged by how probable each is; of others the best is chosen */
    CrestDistribution(List<PassCrest> passes, Agreement agreement, Optional<CrestStop> stop, double near_mm) {
        this.near_mm = near_mm;
        this.passes = passes;
        this.agreement = agreement;
        this.stop = stop;
    }

    /**
     * The mean over what the passes that agree leave open. The uncertainty counts too that others may be right after all, and
     * that the crest may not drift: U95 holds 95 % of the whole distribution.
     *
     * @param bendStdU standard uncertainty of the contact's curvature, per mm
     */
    Estimate crest(double bendStdU) {
        CrestLine line = agreement.line();
        Grid grid = grid();
        double[] main = distribution(grid);
        double weight = 0;
        double byBend = 0;
        double low = line.level_mm() - WITHIN * line.levelStdU_mm();
        double high = line.level_mm() + WITHIN * line.levelStdU_mm();
        for (int i = 0; i < passes.size(); i++) {
            if (agreement.agrees(i)) {
                PassCrest pass = passes.get(i);
                double u = FastMath.sqrt(pass.variance_mm2());
                double steady = line.level_mm() + line.off_mm(pass);
                low = Math.min(low, steady - WITHIN * u);
                high = Math.max(high, steady + WITHIN * u);
                weight += 1 / (u * u);
                byBend += pass.byBend() / (u * u);
            }
        }
        double sum = 0;
        double first = 0;
        double second = 0;
        for (int k = 0; k <= grid.nodes; k++) {
            double off = grid.step * k;
            if (grid.low + off >= low - near_mm && grid.low + off <= high + near_mm) {
                sum += main[k];
                first += main[k] * off;
                second += main[k] * off * off;
            }
        }
        double mean = first / sum;
        double variance = Math.max(second / sum - mean * mean, square(grid.step) / 12);
        int count = agreement.count();
        double freedom = count == 1 ? Double.POSITIVE_INFINITY : FREEDOM * count;
        double coverage = new Estimate(0, 1, freedom).u95();
        double reach = grid.step * reach(main, (int) FastMath.rint(mean / grid.step));
        return new Estimate(
                grid.low + mean,
                FastMath.sqrt(Math.max(variance, square(reach / coverage)) + square(bendStdU * byBend / weight)),
                freedom);
    }

    /** Levels at even distances. */
    private record Grid(double low, double step, int nodes) {}

    private Grid grid() {
        double low = Double.POSITIVE_INFINITY;
        double high = Double.NEGATIVE_INFINITY;
        double finest = Double.POSITIVE_INFINITY;
        for (int i = 0; i < passes.size(); i++) {
            if (agreement.tells(i)) {
                PassCrest pass = passes.get(i);
                double u = FastMath.sqrt(pass.variance_mm2());
                low = Math.min(low, pass.crest_mm() - WITHIN * u);
                high = Math.max(high, pass.crest_mm() + WITHIN * u);
                finest = Math.min(finest, u);
            }
        }
        for (Agreement.Explanation one : agreement.explanations()) {
            CrestLine line = one.line();
            low = Math.min(low, line.level_mm() - WITHIN * line.levelStdU_mm());
            high = Math.max(high, line.level_mm() + WITHIN * line.levelStdU_mm());
        }
        int nodes = (int) Math.min(MOST_NODES, FastMath.ceil((high - low) / finest * NODES_OF_U));
        return new Grid(low, (high - low) / nodes, nodes);
    }

    /** Of all ways to make sense of the passes. */
    private double[] distribution(Grid grid) {
        double[] log = new double[grid.nodes + 1];
        Arrays.fill(log, Double.NEGATIVE_INFINITY);
        for (Agreement.Explanation one : agreement.explanations()) {
            Moved moved = moved(one.line().trend());
            for (int k = 0; k <= grid.nodes; k++) {
                double crest_mm = grid.low + grid.step * k;
                log[k] = sum(log[k], one.logWeight() + logLikelihood(crest_mm, one, moved));
            }
        }
        return CrestMoments.shares(log);
    }

    /** Log of the sum of two probabilities. */
    private static double sum(double logA, double logB) {
        double more = Math.max(logA, logB);
        double less = Math.min(logA, logB);
        return less > more - NOTHING ? more + Math.log(1 + Math.exp(less - more)) : more;
    }

    /** Steps to either side of the middle that hold 95 %. */
    private static int reach(double[] share, int middle) {
        double held = 0;
        int reach = 0;
        for (; held < 0.95 && reach < share.length; reach++) {
            for (int k = middle - reach; k <= middle + reach; k += Math.max(1, 2 * reach)) {
                if (k >= 0 && k < share.length) {
                    held += share[k];
                }
            }
        }
        return reach;
    }

    private static double square(double x) {
        return x * x;
    }

    /** Of all passes that tell, up to a constant, and of the stop, where one explanation holds. */
    private double logLikelihood(double crest_mm, Agreement.Explanation explanation, Moved moved) {
        double amount = explanation.line().amountAt(crest_mm);
        double density = 0;
        for (int c = 0; c < ALL_WORSE.length; c++) {
            double all = ALL_WORSE_SHARE[c];
            for (int i = 0; i < moved.passes.length; i++) {
                double off = moved.passes[i].crest_mm() - amount * moved.at[i] - crest_mm;
                all *= agreement.density(moved.passes[i], off, ALL_WORSE[c]);
            }
            density += all;
        }
        double log = Math.log(density) + explanation.logPrior(amount);
        if (stop.isPresent()) {
            double then = moved.atStop;
            log += stop.get()
                    .logDensity(crest_mm + amount * then, explanation.line().amountStdUAtLevel() * then);
        }
        return log;
    }

    /** The passes that tell, and what part of a trend's amount had moved them. */
    private record Moved(PassCrest[] passes, double[] at, double atStop) {}

    private Moved moved(Trend trend) {
        PassCrest[] telling = IntStream.range(0, passes.size())
                .filter(agreement::tells)
                .mapToObj(passes::get)
                .toArray(PassCrest[]::new);
        return new Moved(
                telling,
                Arrays.stream(telling)
                        .mapToDouble(pass -> trend.at(pass.time_s()))
                        .toArray(),
                stop.map(s -> trend.at(s.time_s())).orElse(0.0));
    }
}

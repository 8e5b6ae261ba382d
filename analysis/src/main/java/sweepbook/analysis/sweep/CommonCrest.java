package sweepbook.analysis.sweep;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.hipparchus.util.FastMath;
import sweepbook.analysis.uncertainty.Estimate;

/**
 * The one crest that all passes share, up to a linear drift: the mean of its distribution given the crests of the passes that
 * agree. A pass may be worse than it owns up to, some by much, all together by a common factor: its error is taken to be a
 * mixture of normal ones, so that the crest leans on the passes that agree and its uncertainty grows where they do not.
 */
final class CommonCrest {
    private static final double[] ALL_WORSE = {1, 1.5};
    private static final double[] ALL_WORSE_SHARE = {0.95, 0.05};
    private static final double NODES_OF_U = 8;
    private static final int MOST_NODES = 1500;
    /** In standard uncertainties: beyond, a pass says nothing. */
    private static final double WITHIN = 5;
    /** Degrees of freedom that a pass adds to the coverage factor: its uncertainty is itself told from few readings. */
    private static final double FREEDOM = 6;
    /** The stand may still swing in the first pass, and in the second. */
    private static final double[] UNSETTLED = {0.05, 0.03, 0.01};
    /** By so much, in resolutions. */
    private static final double SWING = 2.5;
    /** Model error of a pass, in resolutions. */
    private static final double FLOOR = 0.025;

    private final List<PassFit> fits;
    private final List<PassCrest> passes = new ArrayList<>();
    private final Agreement agreement;
    private final Optional<CrestStop> stop;
    private final double floor_mm2;
    private final Estimate crest;

    CommonCrest(List<PassFit> fits, Optional<CrestStop> stop, double noise_mm, double resolution_mm) {
        this.fits = fits;
        this.stop = stop;
        floor_mm2 = FLOOR * FLOOR * resolution_mm * resolution_mm;
        PassLikelihood.Bend known = PassLikelihood.Bend.UNKNOWN;
        double prior = 1 / (known.spread() * known.spread());
        double information = prior;
        double weighted = known.mean() * prior;
        for (PassFit fit : fits) {
            // What the pass says beyond the prior that every fit has put in once.
            double own = 1 / fit.bendVariance() - prior;
            if (own > 0) {
                information += own;
                weighted += fit.bend() / fit.bendVariance() - known.mean() * prior;
            }
        }
        double bend = weighted / information;
        for (PassFit fit : fits) {
            passes.add(new PassCrest(
                    fit.crest_s(),
                    fit.crest_mm() + fit.crestByBend() * (bend - fit.bend()),
                    fit.crestVarianceAtBend_mm2(),
                    fit.readings().topLine_mm,
                    noise_mm,
                    fit.crestByBend(),
                    UNSETTLED[Math.min(passes.size(), UNSETTLED.length - 1)],
                    SWING * resolution_mm));
        }
        agreement = new Agreement(passes, stop, FLOOR * resolution_mm, resolution_mm);
        crest = combined(FastMath.sqrt(1 / information));
    }

    Estimate crest() {
        return crest;
    }

    /** Log of how well the passes, and the stop, make sense together. */
    double logProbability() {
        return agreement.logProbability();
    }

    double drift_mm_per_s() {
        return agreement.drift_mm_per_s();
    }

    /** Standard uncertainty of the drift; 0 where none was seen. */
    double driftStdU_mm_per_s() {
        return agreement.driftStdU_mm_per_s();
    }

    /** Mean time of the crossings, at which the crest is given. */
    double middle_s() {
        return agreement.middle_s();
    }

    /**
     * The mean over what the passes that agree leave open. The uncertainty counts too that others may be right after all, and
     * that the crest may not drift: U95 holds 95 % of the whole distribution.
     */
    private Estimate combined(double bendStdU) {
        double middle = middle_s();
        double drift = drift_mm_per_s();
        Grid grid = grid(middle);
        double[] main = distribution(grid, drift, driftStdU_mm_per_s(), middle);
        double weight = 0;
        double byBend = 0;
        double time = 0;
        double low = Double.POSITIVE_INFINITY;
        double high = Double.NEGATIVE_INFINITY;
        for (int i = 0; i < passes.size(); i++) {
            if (agreement.agrees(i)) {
                PassCrest pass = passes.get(i);
                double u = FastMath.sqrt(pass.variance_mm2() + floor_mm2);
                low = Math.min(low, pass.without(drift, middle) - WITHIN * u);
                high = Math.max(high, pass.without(drift, middle) + WITHIN * u);
                weight += 1 / (u * u);
                byBend += pass.byBend() / (u * u);
                time += (pass.time_s() - middle) / (u * u);
            }
        }
        double sum = 0;
        double first = 0;
        double second = 0;
        for (int k = 0; k <= grid.nodes; k++) {
            double off = grid.step * k;
            if (grid.low + off >= low && grid.low + off <= high) {
                sum += main[k];
                first += main[k] * off;
                second += main[k] * off * off;
            }
        }
        double mean = first / sum;
        double variance = Math.max(second / sum - mean * mean, square(grid.step) / 12);
        int count = agreement.count();
        double freedom = count == 1 ? Double.POSITIVE_INFINITY : FREEDOM * count;
        double share = agreement.levelShare();
        double[] level = drift == 0 ? main : distribution(grid, 0, 0, middle);
        double coverage = new Estimate(0, 1, freedom).u95();
        double reach = grid.step * reach(main, level, share, (int) FastMath.rint(mean / grid.step));
        return new Estimate(
                grid.low + mean,
                FastMath.sqrt(Math.max(variance, square(reach / coverage))
                        + square(bendStdU * byBend / weight)
                        + square(driftStdU_mm_per_s() * time / weight)),
                freedom);
    }

    /** Levels at even distances. */
    private record Grid(double low, double step, int nodes) {}

    private Grid grid(double middle) {
        double low = Double.POSITIVE_INFINITY;
        double high = Double.NEGATIVE_INFINITY;
        double finest = Double.POSITIVE_INFINITY;
        for (int i = 0; i < passes.size(); i++) {
            if (agreement.tells(i)) {
                PassCrest pass = passes.get(i);
                double u = FastMath.sqrt(pass.variance_mm2() + floor_mm2);
                double steady = pass.without(drift_mm_per_s(), middle);
                low = Math.min(low, Math.min(pass.crest_mm(), steady) - WITHIN * u);
                high = Math.max(high, Math.max(pass.crest_mm(), steady) + WITHIN * u);
                finest = Math.min(finest, u);
            }
        }
        int nodes = (int) Math.min(MOST_NODES, FastMath.ceil((high - low) / finest * NODES_OF_U));
        return new Grid(low, (high - low) / nodes, nodes);
    }

    private double[] distribution(Grid grid, double drift, double driftStdU, double middle) {
        double[] share = new double[grid.nodes + 1];
        for (int k = 0; k <= grid.nodes; k++) {
            share[k] = logLikelihood(grid.low + grid.step * k, drift, driftStdU, middle);
        }
        return CrestMoments.shares(share);
    }

    /** Steps to either side of the middle that hold 95 % of a mixture. */
    private static int reach(double[] main, double[] level, double share, int middle) {
        double held = 0;
        int reach = 0;
        for (; held < 0.95 && reach < main.length; reach++) {
            for (int k = middle - reach; k <= middle + reach; k += Math.max(1, 2 * reach)) {
                if (k >= 0 && k < main.length) {
                    held += (1 - share) * main[k] + share * level[k];
                }
            }
        }
        return reach;
    }

    private static double square(double x) {
        return x * x;
    }

    /** Of all passes that tell, up to a constant, and of the stop. */
    private double logLikelihood(double crest_mm, double drift, double driftStdU, double middle) {
        double log = Double.NEGATIVE_INFINITY;
        for (int c = 0; c < ALL_WORSE.length; c++) {
            double all = FastMath.log(ALL_WORSE_SHARE[c]);
            for (int i = 0; i < passes.size(); i++) {
                if (agreement.tells(i)) {
                    PassCrest pass = passes.get(i);
                    all += FastMath.log(agreement.density(pass, pass.without(drift, middle) - crest_mm, ALL_WORSE[c]));
                }
            }
            double more = Math.max(log, all);
            log = more + FastMath.log(FastMath.exp(log - more) + FastMath.exp(all - more));
        }
        if (stop.isPresent()) {
            double since_s = stop.get().time_s() - middle;
            log += stop.get().logDensity(crest_mm + drift * since_s, driftStdU * since_s);
        }
        return log;
    }

    /** The passes as findings, in the trace's own direction. */
    List<Pass> passes(int sign, CleanTrace trace) {
        List<Pass> list = new ArrayList<>();
        for (int i = 0; i < passes.size(); i++) {
            PassReadings readings = fits.get(i).readings();
            list.add(new Pass(
                    trace.time_s()[readings.from],
                    passes.get(i).time_s(),
                    trace.time_s()[readings.to - 1],
                    sign * passes.get(i).crest_mm(),
                    fits.get(i).stdU_mm(),
                    agreement.agrees(i) ? Optional.empty() : Optional.of(why(i))));
        }
        return list;
    }

    private String why(int pass) {
        if (!agreement.tells(pass)) {
            return "it hardly shows where the crest is: sweep right across it";
        }
        return passes.get(pass).without(drift_mm_per_s(), middle_s()) < crest.value()
                ? "its top lies below the others': the hand turned short of the crest, or the surface has a dent"
                : "its top lies above the others': a chip, a burr or a bump on the surface";
    }
}

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
    private static final double[] ALL_WORSE_SHARE = {0.85, 0.15};
    private static final int NODES = 400;
    /** Degrees of freedom that a pass adds to the coverage factor: its uncertainty is itself told from few readings. */
    private static final double FREEDOM = 3;
    /** Standard uncertainty of the mean of two passes that disagree, as a part of their distance: U95 reaches both. */
    private static final double DOUBT = 0.25;
    /** The stand may still swing in the first pass, and in the second. */
    private static final double[] UNSETTLED = {0.1, 0.05, 0.02};
    /** By so much, in resolutions. */
    private static final double SWING = 2.5;
    /** Model error of a pass, in resolutions. */
    private static final double FLOOR = 0.05;

    private final List<PassFit> fits;
    private final List<PassCrest> passes = new ArrayList<>();
    private final Agreement agreement;
    private final double floor_mm2;
    private final double noise_mm;
    private final Estimate crest;

    CommonCrest(List<PassFit> fits, Optional<CrestStop> stop, double noise_mm, double resolution_mm) {
        this.fits = fits;
        this.noise_mm = noise_mm;
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

    private Estimate combined(double bendStdU) {
        double middle = middle_s();
        double low = Double.POSITIVE_INFINITY;
        double high = Double.NEGATIVE_INFINITY;
        double weight = 0;
        double byBend = 0;
        double time = 0;
        for (int i = 0; i < passes.size(); i++) {
            if (agreement.agrees(i)) {
                PassCrest pass = passes.get(i);
                double u = FastMath.sqrt(pass.variance_mm2() + floor_mm2);
                low = Math.min(low, pass.without(drift_mm_per_s(), middle) - 5 * u);
                high = Math.max(high, pass.without(drift_mm_per_s(), middle) + 5 * u);
                weight += 1 / (u * u);
                byBend += pass.byBend() / (u * u);
                time += (pass.time_s() - middle) / (u * u);
            }
        }
        double sum = 0;
        double first = 0;
        double second = 0;
        for (int k = 0; k <= NODES; k++) {
            double off = (high - low) * k / NODES;
            double w = likelihood(low + off, middle);
            sum += w;
            first += w * off;
            second += w * off * off;
        }
        double mean = first / sum;
        double step = (high - low) / NODES;
        double variance = Math.max(second / sum - mean * mean, step * step / 12)
                + FastMath.pow(bendStdU * byBend / weight, 2)
                + FastMath.pow(driftStdU_mm_per_s() * time / weight, 2);
        int count = agreement.count();
        if (agreement.isDoubtful()) {
            double apart_mm = 2 * Math.abs(drift_mm_per_s() * (passes.get(0).time_s() - middle));
            variance += FastMath.pow(apart_mm * DOUBT, 2);
        }
        return new Estimate(
                low + mean, FastMath.sqrt(variance), count == 1 ? Double.POSITIVE_INFINITY : FREEDOM * count);
    }

    /** Of all passes that agree, up to a factor. */
    private double likelihood(double crest_mm, double middle) {
        double sum = 0;
        for (int c = 0; c < ALL_WORSE.length; c++) {
            double product = ALL_WORSE_SHARE[c];
            for (int i = 0; i < passes.size(); i++) {
                if (agreement.agrees(i)) {
                    PassCrest pass = passes.get(i);
                    double off = pass.without(drift_mm_per_s(), middle) - crest_mm;
                    product *= noise_mm * pass.density(off, ALL_WORSE[c], floor_mm2);
                }
            }
            sum += product;
        }
        return sum;
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

package sweepbook.analysis.sweep;

import java.util.ArrayList;
import java.util.List;
import org.hipparchus.util.FastMath;
import sweepbook.analysis.uncertainty.Estimate;

/**
 * The one crest that all passes share, up to a linear drift: the weighted mean of their own crests. Passes that fit
 * neither the others nor a drift are set aside; where the rest scatter by more than they own up to, the excess goes into
 * the uncertainty (Mandel and Paule's between-group variance).
 */
final class CommonCrest {
    private static final double FIT = 3.5;
    private static final double USELESS = 8;
    private static final double DRIFT_SEEN = 3;
    /** In resolutions a second: a stand that moves faster is no stand. */
    private static final double FASTEST_DRIFT_per_s = 2;

    private final List<PassFit> passes;
    private final double floor_mm;
    private final double fastest_mm_per_s;
    private final boolean[] fits;
    private final double bend;
    private final double bendStdU;
    private final Estimate crest;
    private final double drift_mm_per_s;
    private final double driftStdU_mm_per_s;

    CommonCrest(List<PassFit> passes, double resolution_mm) {
        this.passes = passes;
        floor_mm = 0.05 * resolution_mm;
        fastest_mm_per_s =
                FASTEST_DRIFT_per_s * Math.max(resolution_mm, passes.get(0).stdU_mm());
        double information = 1 / (PassLikelihood.Bend.UNKNOWN.spread() * PassLikelihood.Bend.UNKNOWN.spread());
        double weighted = PassLikelihood.Bend.UNKNOWN.mean() * information;
        double prior = information;
        for (PassFit pass : passes) {
            // What the pass says beyond the prior that every fit has put in once.
            double own = Math.max(0, 1 / pass.bendVariance() - prior);
            information += own;
            weighted += pass.bend() / pass.bendVariance() - PassLikelihood.Bend.UNKNOWN.mean() * prior;
        }
        bend = weighted / information;
        bendStdU = FastMath.sqrt(1 / information);
        fits = fitting();
        double[] line = weighted(0, true);
        boolean drifts = count() > 2 && Math.abs(line[1]) > DRIFT_SEEN * line[3];
        double between = between(drifts);
        double[] mean = weighted(between, drifts);
        drift_mm_per_s = drifts ? mean[1] : 0;
        driftStdU_mm_per_s = drifts ? mean[3] : 0;
        int freedom = count() - (drifts ? 2 : 1);
        crest = new Estimate(
                mean[0], mean[2], between > 0 && freedom > 0 ? Math.max(freedom, 1) : Double.POSITIVE_INFINITY);
    }

    Estimate crest() {
        return crest;
    }

    double drift_mm_per_s() {
        return drift_mm_per_s;
    }

    /** Standard uncertainty of the drift; 0 where none was seen. */
    double driftStdU_mm_per_s() {
        return driftStdU_mm_per_s;
    }

    boolean fits(int pass) {
        return fits[pass];
    }

    /** The crest of a pass at the curvature of the contact that all passes agree on. */
    private double crest_mm(PassFit pass) {
        return pass.crest_mm() + pass.crestByBend() * (bend - pass.bend());
    }

    private static double variance_mm2(PassFit pass) {
        return pass.crestVarianceAtBend_mm2();
    }

    /** Mean time of the crossings, at which the crest is given. */
    double middle_s() {
        double middle = 0;
        for (int i = 0; i < fits.length; i++) {
            middle += fits[i] ? passes.get(i).crest_s() / count() : 0;
        }
        return middle;
    }

    private int count() {
        int n = 0;
        for (boolean fit : fits) {
            n += fit ? 1 : 0;
        }
        return n;
    }

    /** A pass much less certain than the best adds nothing but its risk. */
    private boolean tells(PassFit pass) {
        double best =
                passes.stream().mapToDouble(CommonCrest::variance_mm2).min().orElse(0);
        return variance_mm2(pass) <= USELESS * USELESS * (best + floor_mm * floor_mm);
    }

    /** The largest set of passes on one level or one slow line; of equals the higher, for a turn short of the crest is low. */
    private boolean[] fitting() {
        int n = passes.size();
        boolean[] best = new boolean[n];
        double bestScore = -1;
        for (int j = 0; j < n; j++) {
            for (int k = j; k < n; k++) {
                PassFit a = passes.get(j);
                PassFit b = passes.get(k);
                double slope = j == k ? 0 : (crest_mm(b) - crest_mm(a)) / Math.max(1e-9, b.crest_s() - a.crest_s());
                boolean[] set = new boolean[n];
                double score = j == k ? 0.6 : 0;
                for (int i = 0; i < n; i++) {
                    PassFit pass = passes.get(i);
                    double off = crest_mm(pass) - crest_mm(a) - slope * (pass.crest_s() - a.crest_s());
                    double u = FastMath.sqrt(variance_mm2(pass) + variance_mm2(a) + 9 * floor_mm * floor_mm);
                    set[i] = Math.abs(off) <= FIT * u && tells(pass);
                    if (set[i]) {
                        score += 1 - 0.01 * off * off / (u * u);
                    }
                }
                // Any two passes make a line: that is no evidence for one.
                if (j != k && (score < 2.8 || Math.abs(slope) > fastest_mm_per_s)) {
                    continue;
                }
                if (score > bestScore + 1e-9 || (Math.abs(score - bestScore) < 0.05 && higher(set, best))) {
                    bestScore = score;
                    best = set;
                }
            }
        }
        return best;
    }

    private boolean higher(boolean[] a, boolean[] b) {
        return mean(a) > mean(b);
    }

    private double mean(boolean[] set) {
        double sum = 0;
        int n = 0;
        for (int i = 0; i < set.length; i++) {
            if (set[i]) {
                sum += crest_mm(passes.get(i));
                n++;
            }
        }
        return n == 0 ? Double.NEGATIVE_INFINITY : sum / n;
    }

    /** Crest at the mean crossing, drift, their standard uncertainties, chi squared. */
    private double[] weighted(double between, boolean drifts) {
        double middle = middle_s();
        double s0 = 0;
        double s1 = 0;
        double s2 = 0;
        double y0 = 0;
        double y1 = 0;
        for (int i = 0; i < fits.length; i++) {
            if (fits[i]) {
                PassFit pass = passes.get(i);
                double w = 1 / (variance_mm2(pass) + floor_mm * floor_mm + between);
                double t = pass.crest_s() - middle;
                s0 += w;
                s1 += w * t;
                s2 += w * t * t;
                y0 += w * crest_mm(pass);
                y1 += w * t * crest_mm(pass);
            }
        }
        double det = s0 * s2 - s1 * s1;
        boolean line = drifts && det > 1e-12 * s0 * s2;
        double drift = line ? (s0 * y1 - s1 * y0) / det : 0;
        double crest = line ? (s2 * y0 - s1 * y1) / det : y0 / s0;
        double byBend = 0;
        for (int i = 0; i < fits.length; i++) {
            if (fits[i]) {
                PassFit pass = passes.get(i);
                double w = 1 / (variance_mm2(pass) + floor_mm * floor_mm + between);
                double t = pass.crest_s() - middle;
                byBend += (line ? (s2 - s1 * t) / det : 1 / s0) * w * pass.crestByBend();
            }
        }
        double chi = 0;
        for (int i = 0; i < fits.length; i++) {
            if (fits[i]) {
                PassFit pass = passes.get(i);
                double w = 1 / (variance_mm2(pass) + floor_mm * floor_mm + between);
                double off = crest_mm(pass) - crest - drift * (pass.crest_s() - middle);
                chi += w * off * off;
            }
        }
        return new double[] {
            crest,
            drift,
            FastMath.sqrt(line ? s2 / det : 1 / s0),
            line ? FastMath.sqrt(s0 / det) : Double.POSITIVE_INFINITY,
            chi,
            byBend
        };
    }

    private double between(boolean drifts) {
        int freedom = count() - (drifts ? 2 : 1);
        if (freedom < 1 || weighted(0, drifts)[4] <= freedom) {
            return 0;
        }
        double low = 0;
        double high = 1e-12;
        while (weighted(high, drifts)[4] > freedom) {
            high *= 4;
        }
        for (int i = 0; i < 60; i++) {
            double middle = (low + high) / 2;
            if (weighted(middle, drifts)[4] > freedom) {
                low = middle;
            } else {
                high = middle;
            }
        }
        return (low + high) / 2;
    }

    /** The passes as findings, in the trace's own direction. */
    List<Pass> passes(int sign, CleanTrace trace) {
        List<Pass> list = new ArrayList<>();
        for (int i = 0; i < fits.length; i++) {
            PassFit pass = passes.get(i);
            list.add(new Pass(
                    trace.time_s()[pass.readings().from],
                    pass.crest_s(),
                    trace.time_s()[pass.readings().to - 1],
                    sign * crest_mm(pass),
                    pass.stdU_mm(),
                    fits[i] ? java.util.Optional.empty() : java.util.Optional.of(why(pass, sign))));
        }
        return list;
    }

    private String why(PassFit pass, int sign) {
        if (!tells(pass)) {
            return "it hardly shows where the crest is: sweep right across it";
        }
        double off = crest_mm(pass) - crest.value();
        return off < 0
                ? "its top lies below the others': the hand turned short of the crest, or the surface has a dent"
                : "its top lies above the others': a chip, a burr or a bump on the surface";
    }
}

package sweepbook.analysis.sweep;

import java.util.List;
import org.hipparchus.util.FastMath;

/**
 * Which passes agree: the largest set on one level, or, where that explains clearly more of them, on one slow line in time. Of
 * levels that draw the higher is taken, for a turn short of the crest is low and nothing but a rare chip is high.
 */
final class Agreement {
    private static final double FIT = 3.2;
    /** A pass so many times less certain than the best adds nothing but its risk. */
    private static final double USELESS = 8;
    /** A level is likelier beforehand than a line, which two free numbers fit. */
    private static final double LEVEL_FIRST = 0.6;

    private static final double LINE_GAIN = 1;
    private static final double DRIFT_SEEN = 3;
    /** In resolutions a second: a stand that moves faster is no stand. */
    private static final double FASTEST_per_s = 2;

    private final List<PassCrest> passes;
    private final double floor_mm2;
    private final double best_mm2;
    private boolean[] agrees;
    private double drift_mm_per_s;
    private double driftStdU_mm_per_s;

    Agreement(List<PassCrest> passes, double floor_mm, double resolution_mm) {
        this.passes = passes;
        floor_mm2 = floor_mm * floor_mm;
        best_mm2 = passes.stream().mapToDouble(PassCrest::variance_mm2).min().orElse(0);
        choose(FASTEST_per_s * Math.max(resolution_mm, FastMath.sqrt(best_mm2)));
        if (!line()) {
            return;
        }
        // A pass that seemed off the level may lie on the line.
        boolean[] before = agrees.clone();
        join();
        if (!line()) {
            agrees = before;
            line();
        }
    }

    boolean agrees(int pass) {
        return agrees[pass];
    }

    /** Whether a pass shows its crest well enough to count. */
    boolean tells(int pass) {
        return passes.get(pass).variance_mm2() <= USELESS * USELESS * (best_mm2 + floor_mm2);
    }

    /** 0 where none is seen. */
    double drift_mm_per_s() {
        return drift_mm_per_s;
    }

    /** 0 where no drift is seen. */
    double driftStdU_mm_per_s() {
        return driftStdU_mm_per_s;
    }

    int count() {
        int n = 0;
        for (boolean agree : agrees) {
            n += agree ? 1 : 0;
        }
        return n;
    }

    /** Mean time of the crossings that agree. */
    double middle_s() {
        double sum = 0;
        for (int i = 0; i < agrees.length; i++) {
            sum += agrees[i] ? passes.get(i).time_s() : 0;
        }
        return sum / count();
    }

    private void choose(double fastest_mm_per_s) {
        int n = passes.size();
        Candidate level = null;
        Candidate line = null;
        for (int j = 0; j < n; j++) {
            PassCrest a = passes.get(j);
            Candidate flat = candidate(a, 0);
            if (level == null || flat.beats(level)) {
                level = flat;
            }
            for (int k = j + 1; k < n; k++) {
                PassCrest b = passes.get(k);
                double slope = (b.crest_mm() - a.crest_mm()) / Math.max(1e-9, b.time_s() - a.time_s());
                if (Math.abs(slope) <= fastest_mm_per_s) {
                    Candidate sloping = candidate(a, slope);
                    if (line == null || sloping.score > line.score) {
                        line = sloping;
                    }
                }
            }
        }
        boolean sloping = line != null
                && line.score > 2.8
                && line.score > level.score + (n > 3 ? LINE_GAIN : 0) + LEVEL_FIRST / (n > 3 ? 1 : 6);
        agrees = sloping ? line.set : level.set;
    }

    private record Candidate(boolean[] set, double score, double level_mm) {
        boolean beats(Candidate other) {
            return score > other.score + 0.05 || score > other.score - 0.05 && level_mm > other.level_mm;
        }
    }

    private Candidate candidate(PassCrest a, double slope) {
        boolean[] set = new boolean[passes.size()];
        double score = 0;
        double sum = 0;
        int n = 0;
        for (int i = 0; i < set.length; i++) {
            PassCrest pass = passes.get(i);
            double off = pass.without(slope, a.time_s()) - a.crest_mm();
            double u2 = pass.variance_mm2() + a.variance_mm2() + 4 * floor_mm2;
            set[i] = off * off <= FIT * FIT * u2 && tells(i);
            if (set[i]) {
                score += 1 - 0.01 * off * off / u2;
                sum += pass.crest_mm();
                n++;
            }
        }
        return new Candidate(set, score, n == 0 ? Double.NEGATIVE_INFINITY : sum / n);
    }

    /** The weighted line through the passes that agree; whether it slopes by more than chance. */
    private boolean line() {
        double middle = middle_s();
        double s0 = 0;
        double s1 = 0;
        double s2 = 0;
        double y0 = 0;
        double y1 = 0;
        for (int i = 0; i < agrees.length; i++) {
            if (agrees[i]) {
                PassCrest pass = passes.get(i);
                double w = 1 / (pass.variance_mm2() + floor_mm2);
                double t = pass.time_s() - middle;
                s0 += w;
                s1 += w * t;
                s2 += w * t * t;
                y0 += w * pass.crest_mm();
                y1 += w * t * pass.crest_mm();
            }
        }
        double determinant = s0 * s2 - s1 * s1;
        double drift = determinant > 0 ? (s0 * y1 - s1 * y0) / determinant : 0;
        double stdU = determinant > 0 ? FastMath.sqrt(s0 / determinant) : 0;
        boolean drifts = count() > 2 && Math.abs(drift) > DRIFT_SEEN * stdU;
        drift_mm_per_s = drifts ? drift : 0;
        driftStdU_mm_per_s = drifts ? stdU : 0;
        return drifts;
    }

    private void join() {
        double middle = middle_s();
        double sum = 0;
        double weight = 0;
        for (int i = 0; i < agrees.length; i++) {
            if (agrees[i]) {
                double w = 1 / (passes.get(i).variance_mm2() + floor_mm2);
                sum += w * passes.get(i).without(drift_mm_per_s, middle);
                weight += w;
            }
        }
        for (int i = 0; i < agrees.length; i++) {
            PassCrest pass = passes.get(i);
            double off = pass.without(drift_mm_per_s, middle) - sum / weight;
            double reach = driftStdU_mm_per_s * (pass.time_s() - middle);
            double u2 = pass.variance_mm2() + 4 * floor_mm2 + 1 / weight + reach * reach;
            agrees[i] |= off * off <= FIT * FIT * u2 && tells(i);
        }
    }
}

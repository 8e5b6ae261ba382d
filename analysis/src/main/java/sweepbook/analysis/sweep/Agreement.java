package sweepbook.analysis.sweep;

import java.util.List;
import java.util.Optional;
import org.hipparchus.util.FastMath;

/**
 * Which passes agree: of all levels, and all slow lines in time, the most probable one, where every pass may be worse than it
 * owns up to or tell of something else altogether, and the stop on the crest is heard beside the passes.
 */
final class Agreement {
    private static final double FIT = 3.2;
    /** A pass so many times less certain than the best adds nothing but its risk. */
    private static final double USELESS = 8;
    /** A pass may show a chip, or a turn of the hand, rather than the crest. */
    private static final double ELSEWHERE = 0.06;
    /** In resolutions: passes that show something else lie no nearer together than this. */
    private static final double LEAST_RANGE = 20;

    private static final double DRIFT_SEEN = 3;
    /** How probable a drift is beforehand. */
    private static final double DRIFTS = 0.2;
    /** Any two passes make a line: where there are more, two do not tell of one. */
    private static final int FEWEST_ON_A_LINE = 3;
    /** In resolutions a second: a stand that moves faster is no stand. */
    private static final double FASTEST_per_s = 2;

    private final List<PassCrest> passes;
    private final Optional<CrestStop> stop;
    private final double best_mm2;
    private final double range_mm;
    private final int fewestOnALine;
    private final double fastest_mm_per_s;
    private boolean[] agrees;
    private double logProbability = Double.NEGATIVE_INFINITY;
    private double logOfLevel = Double.NEGATIVE_INFINITY;
    private double drift_mm_per_s;
    private double driftStdU_mm_per_s;
    private double unseenDrift_mm_per_s;

    Agreement(List<PassCrest> passes, Optional<CrestStop> stop, double resolution_mm) {
        this.passes = passes;
        this.stop = stop;
        best_mm2 = passes.stream().mapToDouble(PassCrest::variance_mm2).min().orElse(0);
        double best = FastMath.sqrt(best_mm2);
        double low = passes.stream().mapToDouble(PassCrest::crest_mm).min().orElse(0);
        double high = passes.stream().mapToDouble(PassCrest::crest_mm).max().orElse(0);
        range_mm = Math.max(high - low, LEAST_RANGE * Math.max(resolution_mm, best));
        int telling = 0;
        for (int i = 0; i < passes.size(); i++) {
            telling += tells(i) ? 1 : 0;
        }
        fewestOnALine = Math.min(FEWEST_ON_A_LINE, Math.max(2, telling));
        fastest_mm_per_s = FASTEST_per_s * Math.max(resolution_mm, best);
        choose();
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

    /** Log of how well the passes, and the stop, make sense together. */
    double logProbability() {
        return logProbability;
    }

    /** Whether a pass shows its crest well enough to count. */
    boolean tells(int pass) {
        return passes.get(pass).variance_mm2() <= USELESS * USELESS * best_mm2;
    }

    /** 0 where none is seen. */
    double drift_mm_per_s() {
        return drift_mm_per_s;
    }

    /** 0 where no drift is seen. */
    double driftStdU_mm_per_s() {
        return driftStdU_mm_per_s;
    }

    /** Root mean square of the drift that may be there unseen; 0 where one is seen. */
    double unseenDrift_mm_per_s() {
        return unseenDrift_mm_per_s;
    }

    /** How probable it is that the crest does not drift after all. */
    double levelShare() {
        return drift_mm_per_s == 0 ? 0 : 1 / (1 + FastMath.exp(logProbability - logOfLevel));
    }

    /**
     * Density of what a pass tells where the common crest is so far below it: it may tell of something else.
     *
     * @param worse factor on its uncertainty
     */
    double density(PassCrest pass, double off_mm, double worse) {
        return (1 - ELSEWHERE) * pass.density(off_mm, worse) + ELSEWHERE / range_mm;
    }

    int count() {
        return count(agrees);
    }

    private static int count(boolean[] set) {
        int n = 0;
        for (boolean agree : set) {
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

    private void choose() {
        int n = passes.size();
        for (int j = 0; j < n; j++) {
            if (!tells(j)) {
                continue;
            }
            PassCrest a = passes.get(j);
            consider(a, 0);
            for (int k = j + 1; k < n; k++) {
                PassCrest b = passes.get(k);
                double slope = (b.crest_mm() - a.crest_mm()) / Math.max(1e-9, b.time_s() - a.time_s());
                if (tells(k) && Math.abs(slope) <= fastest_mm_per_s) {
                    consider(a, slope);
                }
            }
        }
    }

    private void consider(PassCrest anchor, double slope) {
        boolean[] set = near(anchor, anchor.crest_mm(), anchor.variance_mm2(), slope);
        if (slope != 0 && count(set) < fewestOnALine) {
            return;
        }
        double weight = 0;
        double sum = 0;
        double times = 0;
        double squares = 0;
        for (int i = 0; i < set.length; i++) {
            if (set[i]) {
                double w = 1 / passes.get(i).variance_mm2();
                double t = passes.get(i).time_s() - anchor.time_s();
                weight += w;
                sum += w * passes.get(i).without(slope, anchor.time_s());
                times += w * t;
                squares += w * t * t;
            }
        }
        double level = sum / weight;
        double log = 0;
        if (slope != 0) {
            // Of all the drifts that may be, those that the passes cannot tell from this one.
            double stdU = 1 / FastMath.sqrt(squares - times * times / weight);
            log = FastMath.log(DRIFTS * FastMath.sqrt(2 * FastMath.PI) * stdU / (2 * fastest_mm_per_s));
        }
        for (PassCrest pass : passes) {
            double off = pass.without(slope, anchor.time_s()) - level;
            log += FastMath.log(density(pass, off, 1));
        }
        if (stop.isPresent()) {
            log += stop.get()
                    .logDensity(level + slope * (stop.get().time_s() - anchor.time_s()), FastMath.sqrt(1 / weight));
        }
        if (slope == 0) {
            logOfLevel = Math.max(logOfLevel, log);
        }
        if (log > logProbability) {
            logProbability = log;
            agrees = near(anchor, level, 1 / weight, slope);
            if (count(agrees) == 0) {
                agrees = set;
            }
        }
    }

    private boolean[] near(PassCrest anchor, double level_mm, double variance_mm2, double slope) {
        boolean[] set = new boolean[passes.size()];
        for (int i = 0; i < set.length; i++) {
            PassCrest pass = passes.get(i);
            double off = pass.without(slope, anchor.time_s()) - level_mm;
            set[i] = off * off <= FIT * FIT * (pass.variance_mm2() + variance_mm2) && tells(i);
        }
        return set;
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
                double w = 1 / pass.variance_mm2();
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
        boolean drifts = count() >= fewestOnALine && Math.abs(drift) > DRIFT_SEEN * stdU;
        drift_mm_per_s = drifts ? drift : 0;
        driftStdU_mm_per_s = drifts ? stdU : 0;
        unseenDrift_mm_per_s = drifts ? 0 : FastMath.sqrt(DRIFTS) * Math.max(Math.abs(drift), stdU);
        return drifts;
    }

    private void join() {
        double middle = middle_s();
        double sum = 0;
        double weight = 0;
        for (int i = 0; i < agrees.length; i++) {
            if (agrees[i]) {
                double w = 1 / passes.get(i).variance_mm2();
                sum += w * passes.get(i).without(drift_mm_per_s, middle);
                weight += w;
            }
        }
        for (int i = 0; i < agrees.length; i++) {
            PassCrest pass = passes.get(i);
            double off = pass.without(drift_mm_per_s, middle) - sum / weight;
            double reach = driftStdU_mm_per_s * (pass.time_s() - middle);
            double u2 = pass.variance_mm2() + 1 / weight + reach * reach;
            agrees[i] |= off * off <= FIT * FIT * u2 && tells(i);
        }
    }
}

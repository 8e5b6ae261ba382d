package sweepbook.analysis.sweep;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import java.util.stream.IntStream;
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
    /** Half of all drifts are slow, half of those slower than this part of the fastest; the others are as fast as may be. */
    private static final double SLOW = 0.05;
    /** Log of how much less probable than the best an explanation may be that still counts. */
    private static final double STILL_COUNTS = 7;
    /** Any two passes make a line: where there are more, two do not tell of one. */
    private static final int FEWEST_ON_A_LINE = 3;
    /** In resolutions a second: a stand that moves faster is no stand. */
    private static final double FASTEST_per_s = 2;

    /**
     * A drift that may be.
     *
     * @param stdU_mm_per_s its standard uncertainty
     * @param logWeight log of how probable drifts are that the passes cannot tell from this one, beside no drift at all
     * @param logProbability of all passes
     * @param passes those on the line
     */
    record Line(
            double drift_mm_per_s,
            double stdU_mm_per_s,
            double logWeight,
            double logProbability,
            List<PassCrest> passes) {}

    private final List<PassCrest> passes;
    private final Optional<CrestStop> stop;
    private final double best_mm2;
    private final double range_mm;
    private final int fewestOnALine;
    private final double fastest_mm_per_s;
    private boolean[] agrees;
    private final List<Line> lines = new ArrayList<>();
    private double logProbability = Double.NEGATIVE_INFINITY;
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

    /** The drifts that may be: none, and those of the lines through passes that make nearly as much sense as the best. */
    List<Line> lines() {
        List<Line> all = new ArrayList<>();
        all.add(new Line(0, 0, 0, Double.NaN, List.of()));
        lines.stream()
                .filter(line -> line.logProbability > logProbability - STILL_COUNTS)
                .sorted(Comparator.comparingDouble(line -> -line.logProbability))
                .filter(line -> all.stream().noneMatch(better -> better.passes.equals(line.passes)))
                .forEach(all::add);
        return all;
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

    /** Mean time of the crossings, whether they agree or not: the crest drifts through all of them. */
    double middle_s() {
        return passes.stream().mapToDouble(PassCrest::time_s).average().orElseThrow();
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
        double since = anchor.time_s();
        List<PassCrest> set = of(near(anchor, anchor.crest_mm(), anchor.variance_mm2(), slope));
        if (slope != 0 && set.size() < fewestOnALine) {
            return;
        }
        CrestLine line = CrestLine.through(set, since, slope == 0);
        double drift = line.drift_mm_per_s();
        double stdU = line.driftStdU_mm_per_s();
        // Of all the drifts that may be, those that the passes cannot tell from this one.
        double among =
                slope == 0 ? 0 : FastMath.log(DRIFTS * FastMath.sqrt(2 * FastMath.PI) * stdU * driftDensity(drift));
        double log = among;
        for (PassCrest pass : passes) {
            log += FastMath.log(density(pass, line.off_mm(pass, since), 1));
        }
        if (stop.isPresent()) {
            double then_mm = line.level_mm() + drift * (stop.get().time_s() - since);
            log += stop.get().logDensity(then_mm, FastMath.sqrt(1 / line.weight()));
        }
        if (slope != 0) {
            lines.add(new Line(drift, stdU, among, log, set));
        }
        if (log > logProbability) {
            logProbability = log;
            agrees = near(anchor, line.level_mm(), 1 / line.weight(), drift);
            if (count(agrees) == 0) {
                agrees = near(anchor, anchor.crest_mm(), anchor.variance_mm2(), slope);
            }
        }
    }

    private double driftDensity(double slope) {
        double slow = SLOW * fastest_mm_per_s;
        double times = 1 + Math.abs(slope) / slow;
        return (1 / fastest_mm_per_s + 1 / (slow * times * times)) / 4;
    }

    private List<PassCrest> of(boolean[] set) {
        return IntStream.range(0, set.length)
                .filter(i -> set[i])
                .mapToObj(passes::get)
                .toList();
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
        CrestLine line = CrestLine.through(of(agrees), middle_s(), false);
        double drift = line.drift_mm_per_s();
        double stdU = line.driftStdU_mm_per_s();
        boolean drifts = count() >= fewestOnALine && Math.abs(drift) > DRIFT_SEEN * stdU;
        drift_mm_per_s = drifts ? drift : 0;
        driftStdU_mm_per_s = drifts ? stdU : 0;
        unseenDrift_mm_per_s = drifts ? 0 : FastMath.sqrt(DRIFTS) * Math.max(Math.abs(drift), stdU);
        return drifts;
    }

    private void join() {
        double middle = middle_s();
        CrestLine line = CrestLine.through(of(agrees), middle, false);
        for (int i = 0; i < agrees.length; i++) {
            PassCrest pass = passes.get(i);
            double off = line.off_mm(pass, middle);
            double reach = line.driftStdU_mm_per_s() * (pass.time_s() - middle);
            double u2 = pass.variance_mm2() + 1 / line.weight() + reach * reach;
            agrees[i] |= off * off <= FIT * FIT * u2 && tells(i);
        }
    }
}

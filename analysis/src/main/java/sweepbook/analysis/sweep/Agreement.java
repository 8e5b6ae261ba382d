package sweepbook.analysis.sweep;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import java.util.stream.IntStream;
import org.hipparchus.util.FastMath;

/**
 * Which passes agree: of all levels, all slow lines in time and all ways in which a stand settles, the most probable one, where
 * every pass may be worse than it owns up to or tell of something else altogether, and the stop on the crest is heard beside
 * the passes.
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
    private static final double SLOW = 0.04;
    /** Log of how much less probable than the best an explanation may be that still counts. */
    private static final double STILL_COUNTS = 7;
    /** Any two passes make a line: where there are more, two do not tell of one. */
    private static final int FEWEST_ON_A_LINE = 3;
    /** In resolutions a second: a stand that moves faster is no stand. */
    static final double FASTEST_per_s = 2.5;
    /** How probable it is beforehand that the stand had been moved when the trace began, and came to rest while it was swept. */
    private static final double SETTLES = 0.2;
    /** Root mean square of how much of that was left then, in resolutions. */
    private static final double LEFT = 8;
    /** So many times more hardly ever was. */
    private static final double MOST_LEFT = 3;
    /** The seconds in which what is left falls by a factor of e: from the quickest on, each longer by a factor. */
    private static final double QUICKEST_s = 0.3;

    private static final double LONGER = 1.3;
    private static final int WAYS = 9;

    /**
     * One way to make sense of the passes.
     *
     * @param line the course of their crests
     * @param known information on the amount of its trend before they were seen
     * @param logWeight log of how probable trends are that the passes cannot tell from this one, beside none at all
     * @param logProbability of all passes
     * @param passes those on the line
     */
    record Explanation(CrestLine line, double known, double logWeight, double logProbability, List<PassCrest> passes) {
        /** Log of how much less probable an amount is than none. */
        double logPrior(double amount) {
            return -known * amount * amount / 2;
        }
    }

    private final List<PassCrest> passes;
    private final Optional<CrestStop> stop;
    private final List<RestSlope> slopes;
    private final double best_mm2;
    private final double range_mm;
    private final int fewestOnALine;
    private final double fastest_mm_per_s;
    private final double settles;
    private boolean[] agrees;
    private CrestLine line;
    private final List<Explanation> trends = new ArrayList<>();
    private double logProbability = Double.NEGATIVE_INFINITY;
    private double unseenDrift_mm_per_s;

    /** @param start_s when the trace began */
    Agreement(
            List<PassCrest> passes,
            Optional<CrestStop> stop,
            List<RestSlope> slopes,
            double start_s,
            double resolution_mm) {
        this.passes = passes;
        this.stop = stop;
        this.slopes = slopes;
        best_mm2 = passes.stream().mapToDouble(PassCrest::variance_mm2).min().orElse(0);
        double best = FastMath.sqrt(best_mm2);
        double low = passes.stream().mapToDouble(PassCrest::crest_mm).min().orElse(0);
        double high = passes.stream().mapToDouble(PassCrest::crest_mm).max().orElse(0);
        double step_mm = Math.max(resolution_mm, best);
        range_mm = Math.max(high - low, LEAST_RANGE * step_mm);
        int telling = 0;
        for (int i = 0; i < passes.size(); i++) {
            telling += tells(i) ? 1 : 0;
        }
        fewestOnALine = Math.min(FEWEST_ON_A_LINE, Math.max(2, telling));
        fastest_mm_per_s = FASTEST_per_s * step_mm;
        settles = 1 / (LEFT * LEFT * step_mm * step_mm);
        choose(start_s);
        if (line.trend() instanceof Trend.Settling) {
            unseenDrift_mm_per_s = FastMath.sqrt(DRIFTS) * drift().amountStdU();
            return;
        }
        if (!drifts()) {
            return;
        }
        // A pass that seemed off the level may lie on the line.
        boolean[] before = agrees.clone();
        join();
        if (!drifts()) {
            agrees = before;
            drifts();
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

    /** The course of the crests that agree: where their level counts, and how they were moved. */
    CrestLine line() {
        return line;
    }

    /** 0 where none is seen. */
    double drift_mm_per_s() {
        return line.trend() instanceof Trend.Drift ? line.amount() : 0;
    }

    /** 0 where no drift is seen. */
    double driftStdU_mm_per_s() {
        return line.trend() instanceof Trend.Drift ? line.amountStdU() : 0;
    }

    /** Root mean square of the drift that may be there unseen; 0 where one is seen. */
    double unseenDrift_mm_per_s() {
        return unseenDrift_mm_per_s;
    }

    /** What may be: that nothing moves, and the trends that make nearly as much sense of the passes as the best. */
    List<Explanation> explanations() {
        List<Explanation> all = new ArrayList<>();
        CrestLine level = CrestLine.through(of(agrees), new Trend.None(), 0);
        all.add(new Explanation(level, 0, rests(level), Double.NaN, List.of()));
        trends.stream()
                .filter(one -> one.logProbability > logProbability - STILL_COUNTS)
                .sorted(Comparator.comparingDouble(one -> -one.logProbability))
                .filter(one -> all.stream().noneMatch(better -> isAlike(one, better)))
                .forEach(all::add);
        return all;
    }

    private static boolean isAlike(Explanation one, Explanation other) {
        return one.line.trend().equals(other.line.trend()) && one.passes.equals(other.passes);
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

    /** Mean time of the passes, whether they agree or not: drifts count from it. */
    double middle_s() {
        return passes.stream().mapToDouble(PassCrest::time_s).average().orElseThrow();
    }

    private void choose(double start_s) {
        Trend drift = new Trend.Drift(middle_s());
        List<Trend> settlings = IntStream.range(0, WAYS)
                .<Trend>mapToObj(i -> new Trend.Settling(start_s, QUICKEST_s * FastMath.pow(LONGER, i)))
                .filter(this::mayPart)
                .toList();
        int n = passes.size();
        for (int j = 0; j < n; j++) {
            if (!tells(j)) {
                continue;
            }
            PassCrest a = passes.get(j);
            consider(a, new Trend.None(), 0);
            for (int k = j + 1; k < n; k++) {
                if (!tells(k)) {
                    continue;
                }
                PassCrest b = passes.get(k);
                double slope = (b.crest_mm() - a.crest_mm()) / Math.max(1e-9, b.time_s() - a.time_s());
                if (Math.abs(slope) <= fastest_mm_per_s) {
                    consider(a, drift, slope);
                }
                for (Trend settling : settlings) {
                    consider(
                            a,
                            settling,
                            CrestLine.through(List.of(a, b), settling, settles).amount());
                }
            }
        }
    }

    /** Whether a settling may part the first pass from the last by more than the best of them is known. */
    private boolean mayPart(Trend settling) {
        double part = settling.at(passes.get(0).time_s())
                - settling.at(passes.get(passes.size() - 1).time_s());
        return MOST_LEFT * MOST_LEFT * part * part > best_mm2 * settles;
    }

    private void consider(PassCrest anchor, Trend trend, double amount) {
        boolean moves = !(trend instanceof Trend.None);
        double level_mm = anchor.crest_mm() - amount * trend.at(anchor.time_s());
        List<PassCrest> set = of(near(level_mm, anchor.variance_mm2(), trend, amount));
        if (moves && set.size() < fewestOnALine) {
            return;
        }
        double known = trend instanceof Trend.Settling ? settles : 0;
        CrestLine course = CrestLine.through(set, trend, known);
        double rests = rests(course);
        double log = rests + logWeight(course, course.amountStdU()) - known * course.amount() * course.amount() / 2;
        for (PassCrest pass : passes) {
            log += FastMath.log(density(pass, course.off_mm(pass), 1));
        }
        if (stop.isPresent()) {
            double then_mm = course.level_mm() + course.moved_mm(stop.get().time_s());
            log += stop.get().logDensity(then_mm, FastMath.sqrt(1 / course.weight()));
        }
        if (moves) {
            double weight = rests + logWeight(course, course.amountStdUAtLevel());
            trends.add(new Explanation(course, known, weight, log, set));
        }
        if (log > logProbability) {
            logProbability = log;
            line = course;
            agrees = near(course.level_mm(), 1 / course.weight(), trend, course.amount());
            if (count(agrees) == 0) {
                agrees = near(level_mm, anchor.variance_mm2(), trend, amount);
            }
        }
    }

    /** Log density of how the reading moved in the rests. */
    private double rests(CrestLine course) {
        return slopes.stream()
                .mapToDouble(slope -> slope.logDensity(course, fastest_mm_per_s))
                .sum();
    }

    /** Log of how probable those of all trends are that the passes cannot tell from this one. */
    private double logWeight(CrestLine course, double stdU) {
        if (course.trend() instanceof Trend.Drift) {
            return FastMath.log(DRIFTS * FastMath.sqrt(2 * FastMath.PI) * stdU * driftDensity(course.amount()));
        }
        return course.trend() instanceof Trend.Settling
                ? FastMath.log(SETTLES / WAYS * stdU * FastMath.sqrt(settles))
                : 0;
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

    private boolean[] near(double level_mm, double variance_mm2, Trend trend, double amount) {
        boolean[] set = new boolean[passes.size()];
        for (int i = 0; i < set.length; i++) {
            PassCrest pass = passes.get(i);
            double off = pass.crest_mm() - amount * trend.at(pass.time_s()) - level_mm;
            set[i] = off * off <= FIT * FIT * (pass.variance_mm2() + variance_mm2) && tells(i);
        }
        return set;
    }

    /** The line through the passes that agree. */
    private CrestLine drift() {
        return CrestLine.through(of(agrees), new Trend.Drift(middle_s()), 0);
    }

    /** Takes the line through the passes that agree, or their level where it slopes by no more than chance. */
    private boolean drifts() {
        CrestLine drift = drift();
        boolean drifts = count() >= fewestOnALine && Math.abs(drift.amount()) > DRIFT_SEEN * drift.amountStdU();
        line = drifts ? drift : CrestLine.through(of(agrees), new Trend.None(), 0);
        unseenDrift_mm_per_s =
                drifts ? 0 : FastMath.sqrt(DRIFTS) * Math.max(Math.abs(drift.amount()), drift.amountStdU());
        return drifts;
    }

    private void join() {
        double middle = middle_s();
        for (int i = 0; i < agrees.length; i++) {
            PassCrest pass = passes.get(i);
            double off = line.off_mm(pass);
            double reach = line.amountStdU() * (pass.time_s() - middle);
            double u2 = pass.variance_mm2() + 1 / line.weight() + reach * reach;
            agrees[i] |= off * off <= FIT * FIT * u2 && tells(i);
        }
    }
}

package sweepbook.analysis.sweep;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import org.hipparchus.util.FastMath;

/**
 * What a pass in clicks tells of its crest, whichever way its clicks are counted. About each likely number of clicks across the
 * crest, where they hardly show, the likelihood has a top of its own; all tops are averaged by their evidence.
 */
final class ClickModes {
    private static final int FEWEST_CLICKS = 6;
    /** Of fewer readings most are taken in the midst of a click. */
    private static final double PER_CLICK = 2;
    /** The first guess of a click is not off by more, as a factor. */
    private static final double WIDEST = 1.5;

    private static final int MOST_ROUNDS = 30;
    /** Rounds after which it is looked at again how the likelihood bends. */
    private static final int BEND_AGAIN = 4;

    private static final double DONE = 1e-3;
    /** In clicks, beyond the best. */
    private static final int FARTHEST = 4;
    /** In log probability below the best: such a mode leads to no better one. */
    private static final double HOPELESS = 7;

    private final PassReadings readings;
    private final Rounding rounding;
    private final ClickChain chain;
    private final double click;
    private final List<Mode> modes = new ArrayList<>();

    /**
     * A top of the likelihood.
     *
     * @param factor of the inverse of the covariance of its parameters
     */
    private record Mode(ClickChain.Point top, Cholesky factor) {
        double logEvidence() {
            return top.log() - factor.logDeterminant() / 2;
        }

        CrestMoments moments() {
            return CrestMoments.of(top.crest_mm(), top.bend(), factor);
        }

        boolean isLike(Mode other) {
            double off_mm = top.crest_mm() - other.top.crest_mm();
            return off_mm * off_mm < 0.01 * moments().crestVariance_mm2()
                    && Math.abs(top.click() / other.top.click() - 1) < 1e-3;
        }
    }

    /**
     * @param click roughly
     */
    private ClickModes(PassReadings readings, Rounding rounding, double perSecond, double click) {
        this.click = click;
        this.readings = readings;
        this.rounding = rounding;
        chain = new ClickChain(readings, rounding, perSecond);
    }

    /** The pass counted in clicks that lie on a lattice as the fit in time sees them, or empty where they cannot be counted. */
    static Optional<PassFit> of(PassReadings readings, Rounding rounding, PassFit inTime, ClickLattice lattice) {
        double across = 2 * FastMath.sqrt(readings.fall_mm());
        double clicks = across / lattice.step();
        double perSecond = clicks / Math.max(1e-9, readings.time_s(1) - readings.time_s(-1));
        if (clicks < FEWEST_CLICKS || clicks > ClickLattice.MOST_CLICKS || readings.size() < PER_CLICK * clicks) {
            return Optional.empty();
        }
        double[] start = {inTime.crest_mm(), lattice.bend(), lattice.offset(), lattice.step()};
        double[] counts =
                new ClickChain(readings, rounding, perSecond).at(start).counts();
        ClickModes modes = new ClickModes(readings.counted(counts), rounding, perSecond, lattice.step());
        return modes.climb(start)
                .filter(mode -> modes.fit(mode.top.counts())
                        .filter(fit -> fit.perReading_mm2() < inTime.perReading_mm2())
                        .isPresent())
                .flatMap(modes::explore);
    }

    /** What a pass that is counted already tells under another noise, however it is counted. */
    static Optional<PassFit> again(PassFit counted, Rounding rounding) {
        PassReadings readings = counted.readings();
        ClickModes modes = new ClickModes(readings, rounding, clicksPerSecond(readings), click(counted));
        return modes.climb(start(counted)).flatMap(modes::explore);
    }

    /** The size of a click in a counted pass. */
    static double click(PassFit counted) {
        return start(counted)[3];
    }

    private static double[] start(PassFit counted) {
        double[] even = counted.best();
        PassReadings readings = counted.readings();
        double click = FastMath.exp(even[PassLikelihood.SPEED]) / readings.perUnit();
        return new double[] {even[0], even[1], even[PassLikelihood.P0] - click * readings.middle(), click};
    }

    /** By the usual wait, which a rest of the hand hardly changes. */
    private static double clicksPerSecond(PassReadings counted) {
        List<Double> waits = new ArrayList<>();
        double next = Math.floor(counted.count(0)) + 0.5;
        double before_s = Double.NaN;
        for (int i = 1; i < counted.size(); i++) {
            double from = counted.count(i - 1);
            for (; counted.count(i) > next; next++) {
                double share = Math.max(0, (next - from) / (counted.count(i) - from));
                double at_s = counted.at_s(i - 1) + share * (counted.at_s(i) - counted.at_s(i - 1));
                if (!Double.isNaN(before_s)) {
                    waits.add(at_s - before_s);
                }
                before_s = at_s;
            }
        }
        waits.sort(null);
        return waits.isEmpty() ? 1 : 1 / Math.max(1e-3, waits.get(waits.size() / 2));
    }

    /** To the top of the likelihood near a start; what is hidden lessens the information, which differences of the slope show. */
    private Optional<Mode> climb(double[] start) {
        ClickChain.Point at = chain.at(start);
        double[][] bends = at.complete();
        for (int round = 1; round <= MOST_ROUNDS; round++) {
            Cholesky factor = Cholesky.of(bends);
            if (factor == null) {
                bends = at.complete();
                factor = Cholesky.of(bends, 1e-9);
            }
            if (factor == null) {
                return Optional.empty();
            }
            double[] step = factor.solve(at.gradient());
            double gain = 0;
            for (int a = 0; a < step.length; a++) {
                gain += step[a] * at.gradient()[a] / 2;
            }
            ClickChain.Point better = gain < DONE ? null : better(at, step);
            if (better == null) {
                break;
            }
            at = better;
            bends = round % BEND_AGAIN == 0 ? observed(at) : round < BEND_AGAIN ? at.complete() : bends;
        }
        Cholesky factor = Cholesky.of(observed(at));
        factor = factor == null ? Cholesky.of(at.complete(), 1e-9) : factor;
        return factor == null || Double.isNaN(at.log()) ? Optional.empty() : Optional.of(new Mode(at, factor));
    }

    /** Whether clicks of some size may be those that were seen; of much smaller ones there is no end. */
    private boolean isLike(double size) {
        return size > click / WIDEST && size < click * WIDEST;
    }

    /** Along a step, or part of it, or null where none is better. */
    private ClickChain.Point better(ClickChain.Point at, double[] step) {
        for (double share = 1; share > 0.01; share /= 3) {
            double[] next = at.p().clone();
            for (int a = 0; a < next.length; a++) {
                next[a] += share * step[a];
            }
            if (isLike(next[3])) {
                ClickChain.Point there = chain.at(next);
                if (there.log() > at.log()) {
                    return there;
                }
            }
        }
        return null;
    }

    /** Minus the second derivatives, by differences of the slope. */
    private double[][] observed(ClickChain.Point at) {
        double[][] complete = at.complete();
        int n = complete.length;
        double[][] m = new double[n][n];
        for (int a = 0; a < n; a++) {
            double aside = 0.1 / FastMath.sqrt(complete[a][a]);
            double[] above = at.p().clone();
            above[a] += aside;
            double[] slope = chain.at(above).gradient();
            for (int b = 0; b < n; b++) {
                double bend = (at.gradient()[b] - slope[b]) / aside;
                m[a][b] += bend / 2;
                m[b][a] += bend / 2;
            }
        }
        return m;
    }

    /** From one mode to those of ever more clicks across the crest, and of ever fewer, until they are hopeless. */
    private Optional<PassFit> explore(Mode first) {
        modes.add(first);
        for (int more = -1; more <= 1; more += 2) {
            Mode last = first;
            for (int beyond = 0; last != null && beyond < FARTHEST; ) {
                Mode next = fit(withMore(last.top, more))
                        .flatMap(fit -> climb(start(fit)))
                        .filter(found -> modes.stream().noneMatch(found::isLike))
                        .orElse(null);
                if (next != null) {
                    beyond = next.logEvidence() > best().logEvidence() ? 0 : beyond + 1;
                    modes.add(next);
                    next = next.logEvidence() > best().logEvidence() - HOPELESS ? next : null;
                }
                last = next;
            }
        }
        double[] share = CrestMoments.shares(
                modes.stream().mapToDouble(Mode::logEvidence).toArray());
        CrestMoments mixed =
                CrestMoments.mixed(modes.stream().map(Mode::moments).toList(), share);
        return fit(best().top.counts()).map(fit -> fit.with(mixed));
    }

    private Mode best() {
        return modes.stream().max(Comparator.comparingDouble(Mode::logEvidence)).orElseThrow();
    }

    /** So many clicks more after the crest. */
    private static double[] withMore(ClickChain.Point at, int more) {
        double[] counts = at.counts().clone();
        for (int i = 0; i < counts.length; i++) {
            double shifted = counts[i] + (at.distance(counts[i]) > 0 ? more : 0);
            counts[i] = i == 0 ? shifted : Math.max(counts[i - 1], shifted);
        }
        return counts;
    }

    /** Empty where the counts lead to another size of click. */
    private Optional<PassFit> fit(double[] counts) {
        return PassFit.of(readings.counted(counts), rounding, PassLikelihood.Bend.UNKNOWN, Hand.evenOnly())
                .filter(fit -> isLike(click(fit)));
    }
}

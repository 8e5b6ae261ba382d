package sweepbook.analysis.sweep;

import java.util.Arrays;
import java.util.DoubleSummaryStatistics;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.IntStream;
import org.hipparchus.util.FastMath;
import sweepbook.analysis.uncertainty.Estimate;
import sweepbook.analysis.uncertainty.Finding;

/**
 * The level of a stretch in which nothing is meant to move: the longest tail of it that does not creep, its mean under
 * rounding and spikes, and its uncertainty under noise that hangs together from reading to reading.
 */
final class DwellLevel {
    /** A level that goes on moving by more than one resolution in five seconds is no level. */
    static final double CREEP_s = 5;

    /** A needle that stands on one digit leaves a slope open whose distribution is a triangle: so many times that of the level, over the time. */
    private static final double ONE_DIGIT = FastMath.sqrt(2);
    /** Nothing is known better; what is less is arithmetic. */
    private static final double LEAST_mm = 1e-7;

    /** Of the variance of a reading: what lies off a line by more is moving. */
    private static final double MOVES = 25;

    private static final double SEEN = 2.5;
    private static final double SURE = 3;
    /** A creep that is seen stays below the limit by so many standard uncertainties, or it may be beyond. */
    private static final double EXCLUDED = 2;
    /** Squares over the variance that a part which moves and one which stands take off those about a line. */
    private static final double SETTLED = 6;

    /** In steps: what is left of a settling then, the mean hardly feels. */
    private static final double SETTLED_OFF = 0.2;

    private static final int FEWEST = 4;
    private static final int CUTS = 12;
    /** In steps: where the display hides the noise, only some are tried. */
    private static final double MODEL = 0.01;
    /** Readings no farther apart than this part of a step are taken for equal where a drift or a mean has moved them off the digits. */
    private static final double SAME = 1e-3;
    /** Where one moment of the stand's settling after a jog is not seen, it is left out unseen: this part, at most so long. */
    private static final double UNSEEN = 0.1;

    static final double UNSEEN_s = 0.5;
    /** A rest shorter than this has to show that it does not creep. */
    private static final double SHORT_s = 2;
    /** What stands so long after a motion, no creep being seen, stands; the creep that is not excluded is in its uncertainty. */
    private static final double LONG_s = 3;

    private final CleanTrace trace;
    private final LengthWords words;
    private final double reading_mm2;
    private final double far_mm;
    private final List<HiddenNoise> noises;
    /** Levels of stretches that were asked for. */
    private final Map<List<Integer>, Level> all = new HashMap<>();

    /** The dwell's readings are as noisy as those of the passes. */
    DwellLevel(CleanTrace trace, LengthWords words, double noise_mm) {
        this.trace = trace;
        this.words = words;
        double q = trace.resolution_mm();
        reading_mm2 = Math.max(noise_mm * noise_mm, 1e-18) + q * q / 12;
        far_mm = 5 * FastMath.sqrt(reading_mm2) + trace.noise_mm();
        noises = HiddenNoise.like(noise_mm, q, spikeShare(trace.spike()));
    }

    /** As many as were seen, and one more (rule of succession). */
    private static double spikeShare(boolean[] spike) {
        int seen = 0;
        for (boolean is : spike) {
            seen += is ? 1 : 0;
        }
        return (seen + 1) / (spike.length + 2.0);
    }

    /** The part of a stretch that stands, readings from (inclusive) to (exclusive), and how fast it is seen to move on; 0 mostly. */
    record Level(Estimate level, int from, int to, double slope_mm_per_s, double begins_mm) {
        /** The same, off by something else too of this standard uncertainty. */
        Level with(double otherStdU_mm) {
            return new Level(level.with(otherStdU_mm), from, to, slope_mm_per_s, begins_mm);
        }
    }

    /** The level of all readings of a stretch, creeping or not. */
    Level all(int from, int to) {
        return all.computeIfAbsent(List.of(from, to), stretch -> {
            Spread spread = new Spread(from, to);
            return new Level(level(spread), from, to, spread.seenSlope(), 0);
        });
    }

    /** Whether nothing tells how far the level of a stretch may be off: neither its readings nor a step of the display. */
    boolean isBeyondTelling(Level level) {
        return trace.resolution_mm() == 0 && new Spread(level.from, level.to).perReading_mm2 < LEAST_mm * LEAST_mm;
    }

    /** The slope of a stretch in its standard uncertainties; 0 where there are too few readings. */
    double slope(int from, int to) {
        Spread spread = new Spread(from, to);
        return to - from < FEWEST || spread.slopeU == 0 ? 0 : spread.slope / spread.slopeU;
    }

    /** How a stretch moves; empty where too few readings tell. */
    Optional<RestSlope> moves(int from, int to) {
        if (to - from < FEWEST) {
            return Optional.empty();
        }
        Spread spread = new Spread(from, to);
        double rounding = Rounding.left_mm(FastMath.sqrt(reading_mm2), trace.resolution_mm());
        double known_mm = Math.max(ONE_DIGIT * rounding, LEAST_mm);
        return Optional.of(new RestSlope(
                trace.time_s()[from],
                trace.time_s()[to - 1],
                spread.slope,
                FastMath.hypot(spread.surelyU(), known_mm / spread.seconds)));
    }

    /** The level of the part that stands; not determined while it creeps. */
    Finding<Level> settled(int from, int to) {
        if (to - from < FEWEST) {
            return Finding.notDetermined("only " + (to - from) + " readings at rest: hold still for longer");
        }
        double q = trace.resolution_mm();
        double rest_s = trace.time_s()[to - 1] - trace.time_s()[from];
        Spread whole = new Spread(after(from, Math.min(UNSEEN * rest_s, UNSEEN_s)), to);
        Spread stands = whole.isFlat() ? whole : standing(whole);
        Settling atFirst = settling(from, stands);
        Spread part = settled(stands, atFirst);
        Settling settling = part == stands ? atFirst : settling(from, part);
        boolean settles = settling.isAll(q / CREEP_s);
        double creep = Math.abs(part.slope);
        if (!settles && (creep + EXCLUDED * part.slopeU) * CREEP_s > q && creep > SURE * part.surelyU()) {
            return Finding.notDetermined("the reading still creeps by " + words.of(creep * CREEP_s)
                    + " in five seconds: hold still until it stands");
        }
        // What is left of a stretch that moved has to show for some time that it does not, and so has a short one.
        boolean isDoubtful = stands != whole || whole.seconds < SHORT_s || passesForNoise(part);
        boolean shown = settles || !isDoubtful || (creep + part.slopeU) * CREEP_s <= q;
        double moved = shown ? 0 : Math.max(creep, part.slopeU) * part.seconds / FastMath.sqrt(12);
        boolean movesOn = !settles && part.endsElsewhere();
        if (!shown && (stands != whole ? part.seconds < LONG_s : rest_s < SHORT_s) || moved > q || movesOn) {
            return Finding.notDetermined("the trace ends before the reading stands: hold still for longer at the end");
        }
        Estimate level = level(part).less(settling.mean_mm()).with(settling.stdU_mm());
        return Finding.found(new Level(
                shown
                        ? level
                        : new Estimate(level.value(), FastMath.hypot(level.stdU(), moved), level.degreesOfFreedom()),
                part.from,
                to,
                part.seenSlope(),
                settling.begins_mm()));
    }

    /** A motion may pass for noise that hangs together: then few readings count, or they lie farther off a line than noise goes. */
    private boolean passesForNoise(Spread part) {
        return part.n < FEWEST * part.inflation || part.perReading_mm2 > MOVES * reading_mm2;
    }

    /** The same part without what is seen to settle in it, but for more than half. */
    private Spread settled(Spread part, Settling settling) {
        double begin_s = settling.isWithin_s(SETTLED_OFF * trace.resolution_mm());
        int start = part.from;
        while (start < part.to && trace.time_s()[start] < begin_s) {
            start++;
        }
        return start > part.from && 2 * (part.to - start) > part.to - part.from ? new Spread(start, part.to) : part;
    }

    /** How a stretch settles; what was left out before its part that stands tells of it too. */
    private Settling settling(int from, Spread part) {
        double[] time_s = new double[part.to - from];
        double[] reading_mm = new double[part.to - from];
        int n = 0;
        for (int i = from; i < part.to; i++) {
            if (counts(i)) {
                time_s[n] = trace.time_s()[i];
                reading_mm[n++] = trace.pressed_mm()[i] - part.mean;
            }
        }
        return Settling.of(
                Arrays.copyOf(time_s, n),
                Arrays.copyOf(reading_mm, n),
                trace.time_s()[part.from],
                Math.max(part.perReading_mm2, reading_mm2) * part.inflation);
    }

    /** Whether a reading is no spike, nor nearly one. */
    private boolean counts(int i) {
        return !trace.spike()[i] && Math.abs(trace.pressed_mm()[i] - trace.line_mm()[i]) < far_mm;
    }

    /** What stands of a stretch: what is left of it where it moved before, and that is clearly more than one line explains; else all. */
    private Spread standing(Spread whole) {
        double inflation = new Spread((whole.from + whole.to) / 2, whole.to).inflation;
        Spread best = whole;
        double least = whole.aboutLine_mm2;
        for (int cut = 1; cut < CUTS; cut++) {
            int start = whole.from + (whole.to - whole.from) * cut / (CUTS + 4);
            if (start - whole.from > 1 && whole.to - start >= FEWEST) {
                Spread tail = new Spread(start, whole.to);
                double squares = new Spread(whole.from, start).aboutLine_mm2 + tail.aboutMean_mm2;
                if (squares < least) {
                    least = squares;
                    best = tail;
                }
            }
        }
        double q = trace.resolution_mm();
        double variance = Math.max(least / Math.max(1, whole.n - 3), q * q / 12) * inflation;
        double rounding = Rounding.left_mm(FastMath.sqrt(reading_mm2), q);
        return whole.aboutLine_mm2 - least > SETTLED * variance + whole.n * rounding * rounding ? best : whole;
    }

    private int after(int from, double wait_s) {
        int i = from;
        while (trace.time_s()[i] < trace.time_s()[from] + wait_s) {
            i++;
        }
        return i;
    }

    private Estimate level(Spread spread) {
        double q = trace.resolution_mm();
        Alike values = Alike.of(Arrays.copyOfRange(trace.pressed_mm(), spread.from, spread.to), SAME * q);
        double half_mm = 0.75 * q + 6 * FastMath.sqrt(reading_mm2 / spread.n);
        LevelDistribution level =
                LevelDistribution.of(values.sorted_mm(), values.counts(), noises, spread.mean, half_mm);
        // Where the stretch itself is noisier than the passes were, or its noise hangs together, the grid is too sure.
        double noisier = Math.max(1, spread.perReading_mm2 / reading_mm2) * spread.inflation;
        double stdU = level.stdU_mm() * FastMath.sqrt(noisier);
        if (noises.size() > 1) {
            stdU = FastMath.hypot(stdU, MODEL * q);
        }
        // A needle that never left its digit may have no noise at all (GUM F.2.2.1).
        return isOneDigit(spread) && stdU < q / FastMath.sqrt(12)
                ? new Estimate(level.mean_mm(), q / FastMath.sqrt(12), Double.POSITIVE_INFINITY, Estimate.EVEN)
                : new Estimate(level.mean_mm(), stdU, Math.max(1, spread.n / spread.inflation - 1), level.breadth());
    }

    /** Whether nothing but spikes leaves the digit on which the needle stands. */
    private boolean isOneDigit(Spread spread) {
        DoubleSummaryStatistics counting_mm = IntStream.range(spread.from, spread.to)
                .filter(this::counts)
                .mapToDouble(i -> trace.pressed_mm()[i])
                .summaryStatistics();
        return counting_mm.getMax() - counting_mm.getMin() <= SAME * trace.resolution_mm();
    }

    /** Mean, slope and spread of a stretch, spikes left out. */
    private final class Spread {
        final int from;
        final int to;
        final double n;
        final double mean;
        final double slope;
        final double slopeU;
        final double seconds;
        final double aboutMean_mm2;
        final double aboutLine_mm2;
        final double perReading_mm2;
        final double inflation;

        Spread(int from, int to) {
            this.from = from;
            this.to = to;
            double[] t = trace.time_s();
            double[] y = trace.pressed_mm();
            double origin = trace.line_mm()[(from + to) / 2];
            double count = 0;
            double sum = 0;
            double sumT = 0;
            for (int i = from; i < to; i++) {
                if (counts(i)) {
                    count++;
                    sum += y[i] - origin;
                    sumT += t[i] - t[from];
                }
            }
            n = Math.max(1, count);
            double offset = sum / n;
            double middle = sumT / n;
            double tt = 0;
            double ty = 0;
            for (int i = from; i < to; i++) {
                if (counts(i)) {
                    double dt = t[i] - t[from] - middle;
                    tt += dt * dt;
                    ty += dt * (y[i] - origin - offset);
                }
            }
            slope = tt > 0 ? ty / tt : 0;
            double squares = 0;
            double products = 0;
            double before = 0;
            for (int i = from; i < to; i++) {
                if (counts(i)) {
                    double r = y[i] - origin - offset - slope * (t[i] - t[from] - middle);
                    squares += r * r;
                    products += r * before;
                    before = r;
                }
            }
            double q = trace.resolution_mm();
            aboutLine_mm2 = squares;
            aboutMean_mm2 = squares + slope * ty;
            perReading_mm2 = Math.max(squares / Math.max(1, n - 2), q * q / 12);
            double lagOne = squares > 0 ? Math.max(0, Math.min(0.95, products / squares)) : 0;
            // Chance correlation is not memory.
            double seen = n > 8 && lagOne > 2.2 / FastMath.sqrt(n) ? lagOne : 0;
            inflation = (1 + seen) / (1 - seen);
            mean = origin + offset;
            seconds = t[to - 1] - t[from];
            slopeU = tt > 0 ? FastMath.sqrt(perReading_mm2 * inflation / tt) : 0;
        }

        double seenSlope() {
            return Math.abs(slope) > SEEN * slopeU ? slope : 0;
        }

        /** The slope's uncertainty, that of the noise counted in: few readings hardly tell it. */
        double surelyU() {
            return slopeU * (1 + (SURE * SURE + 1) / (4 * Math.max(1, n / inflation - 2)));
        }

        /** Whether nothing hints at a motion. */
        boolean isFlat() {
            double still = Math.max(SEEN * slopeU, trace.resolution_mm() / CREEP_s);
            return Math.abs(slope) <= still && !isBent();
        }

        /** Whether the last third stands more than a step off the whole, whatever noise hangs together: it is the end that counts. */
        boolean endsElsewhere() {
            int third = to - (to - from) / 3;
            if (to - third < FEWEST) {
                return false;
            }
            Spread end = new Spread(third, to);
            double u = FastMath.sqrt(perReading_mm2 / end.n);
            return Math.abs(end.mean - mean) > trace.resolution_mm() + SURE * u;
        }

        /** Whether the first third stands elsewhere than the rest. */
        private boolean isBent() {
            int third = from + (to - from) / 3;
            if (third - from < 2) {
                return false;
            }
            Spread head = new Spread(from, third);
            Spread tail = new Spread(third, to);
            double u = FastMath.sqrt(perReading_mm2 * inflation * (1 / head.n + 1 / tail.n));
            return Math.abs(head.mean - tail.mean) > Math.max(3 * u, 0.1 * trace.resolution_mm());
        }
    }
}

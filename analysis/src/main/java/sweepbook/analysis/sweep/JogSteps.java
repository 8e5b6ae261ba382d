package sweepbook.analysis.sweep;

import java.util.List;
import java.util.stream.DoubleStream;
import java.util.stream.IntStream;
import org.hipparchus.util.FastMath;
import sweepbook.analysis.uncertainty.Estimate;

/**
 * The jog between the dwell on the crest and the stable zero, decoded as whole steps of one of the sizes that machines
 * jog by. From level to level the count is a Markov chain that mostly goes on by one, and each level is seen with an
 * uncertainty of its own: the size under which the levels are likeliest is taken, and the likeliest counts (Viterbi 1967).
 */
final class JogSteps {
    /** Hundredths and tenths of a millimetre, thousandths and hundredths of an inch (common practice). */
    private static final double[] STEPS_mm = {0.01, 0.0254, 0.1, 0.254};

    /** A machine mostly jogs in the unit of the indicator that is brought to it, and near the zero by its small step; in log likelihood. */
    private static final double LIKELIER = 5;

    private static final double COARSE_mm = 0.05;
    /** Such a part of the levels lies off the clicks, and more where noise puts two of them together. */
    private static final double OFF = 0.05;

    private static final double OFF_IN_NOISE = 0.3;
    /** A click is as long as it should be to within this part of it. */
    private static final double INEXACT = 0.03;
    /** The next level is the same click still, by noise or creep. */
    private static final double SAME = 0.1;
    /** How often a jog turns back. */
    private static final double TURNS = 0.15;
    /** That another click follows before a level is seen: seldom, but where noise hides what lies between, or few readings come while the hand waits. */
    private static final double UNSEEN = 0.2;

    private static final double UNSEEN_MORE = 0.6;
    private static final double HIDDEN = 1.5;
    private static final double SPARSE = 5;
    private static final double HIDES = 0.8;
    /** Counts to either side of the nearest that are tried at a level, at most. */
    private static final int MOST_BESIDE = 6;
    /** The last dwell is known best: it counts like so many readings. */
    private static final int ZERO_COUNTS = 20;
    /** A part of the noise's variance that no averaging takes away. */
    private static final double IN_ALL = 0.0025;

    private static final int MOST_CLICKS = 100_000;
    private static final double LEAST = 1e-290;

    private final double[] level_mm;
    private final int[] readings;
    private final Estimate dwell;
    private final double noise_mm;
    private final double rounding_mm;
    private final double sparse;
    private final Path best;

    /** A size of step, and how likely it is before the trace is looked at, in log probability. */
    record Size(double step_mm, double likely) {}

    /** What machines jog by, where no step is told; of the unit of the display rather than of the other, which is round in it. */
    static List<Size> sizes(double told_mm, double resolution_mm) {
        if (told_mm > 0) {
            return List.of(new Size(told_mm, 0));
        }
        double[] likely = DoubleStream.of(STEPS_mm)
                .map(step -> (isRound(step / 10, resolution_mm) ? LIKELIER : 0) - (step > COARSE_mm ? LIKELIER : 0))
                .toArray();
        double all = FastMath.log(DoubleStream.of(likely).map(FastMath::exp).sum());
        return IntStream.range(0, likely.length)
                .mapToObj(i -> new Size(STEPS_mm[i], likely[i] - all))
                .toList();
    }

    private static boolean isRound(double length_mm, double resolution_mm) {
        double ratio = length_mm / resolution_mm;
        double times = ratio < 1 ? 1 / ratio : ratio;
        return resolution_mm > 0 && Math.abs(times - Math.rint(times)) < 1e-3;
    }

    /** The likeliest counts for a size of step, and how likely the levels are over all counts, in log density. */
    private record Path(double step_mm, double logDensity, int count, int net) {}

    /**
     * @param levels between the dwell on the crest and the last dwell on which the reading stood, in time order
     * @param noise_mm standard deviation of a reading, rounding included
     * @param resolution_mm step of the display
     */
    JogSteps(
            List<Still> levels,
            List<Size> sizes,
            Estimate dwell,
            double zero_mm,
            double noise_mm,
            double resolution_mm) {
        int n = levels.size();
        level_mm = new double[n + 1];
        readings = new int[n + 1];
        for (int i = 0; i < n; i++) {
            level_mm[i] = levels.get(i).level_mm();
            readings[i] = levels.get(i).to() - levels.get(i).from();
        }
        level_mm[n] = zero_mm;
        readings[n] = ZERO_COUNTS;
        this.dwell = dwell;
        this.noise_mm = noise_mm;
        rounding_mm = Rounding.left_mm(noise_mm, resolution_mm);
        sparse = sparse(levels);
        Path found = null;
        for (Size size : sizes) {
            Path path = path(size);
            if (found == null || path.logDensity > found.logDensity) {
                found = path;
            }
        }
        best = found;
    }

    private static double sparse(List<Still> levels) {
        int[] sizes = levels.stream()
                .mapToInt(still -> still.to() - still.from())
                .sorted()
                .toArray();
        double usual = sizes.length == 0 ? Double.POSITIVE_INFINITY : sizes[sizes.length / 2];
        return Math.min(1, SPARSE * SPARSE / usual / usual);
    }

    JogClicks clicks() {
        return best.count == 0
                ? JogClicks.NONE
                : new JogClicks(best.count, best.net, best.step_mm, level_mm[level_mm.length - 1] - dwell.value());
    }

    /** How likely the levels are over all ways to click from each to the next, in log density. */
    double logDensity() {
        return best.logDensity;
    }

    /** Of a level, as readings, noise and rounding leave it. */
    private double variance_mm2(int i) {
        return noise_mm * noise_mm * (1.0 / readings[i] + IN_ALL) + rounding_mm * rounding_mm;
    }

    /** How far the clicks lie off their places is followed along each way through the counts (Kalman 1960): clicks are not exact, and a stand drifts. */
    private Path path(Size size) {
        double step = size.step_mm;
        double hidden = Math.min(1, HIDDEN * HIDDEN * noise_mm * noise_mm / step / step);
        double off = Math.max(OFF, OFF_IN_NOISE * hidden);
        double unseen = UNSEEN + UNSEEN_MORE * Math.max(hidden, sparse);
        double log = size.likely;
        double variance = dwell.stdU() * dwell.stdU();
        States before = new States(1, 0);
        before.forward[0] = 1;
        before.greatest[0] = 1;
        before.zero_mm[0] = dwell.value();
        for (int i = 0; i < level_mm.length; i++) {
            variance += INEXACT * INEXACT * step * step;
            double spread = variance + variance_mm2(i);
            int beside = (int) Math.min(MOST_BESIDE, 1 + FastMath.ceil(3 * FastMath.sqrt(spread) / step));
            long nearest = FastMath.round((level_mm[i] - before.likeliestZero_mm()) / step);
            States now = new States(2 * beside + 1, nearest - beside);
            double total = 0;
            for (int s = 0; s < now.forward.length; s++) {
                for (int b = 0; b < before.forward.length; b++) {
                    long move = now.first + s - before.first - b;
                    double beyond_mm = level_mm[i] - (now.first + s) * step - before.zero_mm[b];
                    double seen = (1 - off)
                            * FastMath.exp(-beyond_mm * beyond_mm / (2 * spread))
                            / FastMath.sqrt(2 * FastMath.PI * spread);
                    double anywhere = off / (now.forward.length * step);
                    double lies = goes(move, before.way[b], unseen) * (seen + anywhere);
                    double on = seen / (seen + anywhere);
                    now.reach(s, before, b, lies, before.zero_mm[b] + on * variance / spread * beyond_mm);
                }
                total += now.forward[s];
            }
            if (!(total > LEAST)) {
                return new Path(step, Double.NEGATIVE_INFINITY, 0, 0);
            }
            now.scale(total);
            log += FastMath.log(total);
            variance -= variance * variance / spread;
            before = now;
        }
        int last = before.likeliest();
        int end = (int) (before.first + last);
        int net = (int) FastMath.round((level_mm[level_mm.length - 1] - dwell.value()) / step);
        // Where noise hides the clicks, what seems to go back and forth is mostly noise.
        return new Path(
                step, log, noise_mm < HIDES * step ? before.walked[last] + Math.abs(net - end) : Math.abs(net), net);
    }

    /** How likely so many clicks come before the next level is seen, after one that went this way. */
    private static double goes(long move, int way, double unseen) {
        if (move == 0) {
            return SAME;
        }
        double clicks = (1 - SAME) / 2 * (1 - unseen) * FastMath.pow(unseen, Math.abs(move) - 1.0);
        return move * way < 0 ? TURNS * clicks : clicks;
    }

    /** Neighbouring counts at a level: how likely each is, by all ways and by the likeliest, and on that the clicks walked, the way of the last and where count 0 lies. */
    private static final class States {
        final long first;
        final double[] forward;
        final double[] greatest;
        final int[] walked;
        final int[] way;
        final double[] zero_mm;

        States(int count, long first) {
            this.first = first;
            forward = new double[count];
            greatest = new double[count];
            walked = new int[count];
            way = new int[count];
            zero_mm = new double[count];
        }

        /**
         * Comes to a state from one before, by the likeliest way if it is that.
         *
         * @param lies how likely the move is, and the level after it
         * @param zero where count 0 lies by this way
         */
        void reach(int s, States before, int b, double lies, double zero) {
            forward[s] += before.forward[b] * lies;
            if (before.greatest[b] * lies > greatest[s]) {
                long move = first + s - before.first - b;
                greatest[s] = before.greatest[b] * lies;
                walked[s] = before.walked[b] + (int) Math.min(Math.abs(move), MOST_CLICKS);
                way[s] = move == 0 ? before.way[b] : Long.signum(move);
                zero_mm[s] = zero;
            }
        }

        int likeliest() {
            int at = 0;
            for (int s = 1; s < greatest.length; s++) {
                at = greatest[s] > greatest[at] ? s : at;
            }
            return at;
        }

        double likeliestZero_mm() {
            return zero_mm[likeliest()];
        }

        void scale(double total) {
            for (int s = 0; s < forward.length; s++) {
                forward[s] /= total;
                greatest[s] /= total;
            }
        }
    }
}

package sweepbook.analysis.sweep;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import org.hipparchus.util.FastMath;
import sweepbook.analysis.uncertainty.Estimate;

/**
 * On which level the person stopped before the first jog: a long one, near the crest. It cannot lie above the crest, and how
 * far below nobody knows. What comes after it is explained by clicks, and stands in between; what comes before it is not, or
 * slopes.
 */
final class StopChoice {
    private static final double SHORTEST_STOP_s = 0.25;
    /** Standard uncertainties by which a stop may seem to stand above the crest. */
    private static final double TOO_HIGH = 5;

    /** What approaches the crest still is no stop on it; in log likelihood. */
    private static final double APPROACHES = 10;

    /** Longer stops are no likelier. */
    private static final double LONG_s = 2;
    /** A shorter level does not tell whether it stands, and so much in log likelihood one tells at most. */
    private static final double SHORTEST_WAIT_s = 0.2;

    private static final double WAITS = 3;
    /** What the scores of two stops leave out is as much as they say: they count half. */
    private static final double SCORE_COUNTS = 0.5;

    /** Of the waits between clicks hardly one in fifty is so many times longer than they mostly are; in log likelihood. */
    private static final double RESTS = 4;

    private static final double LONGER = 3;
    /** What moves otherwise than in clicks of a jog moves by any length, evenly over so many times itself. */
    private static final double ANYWHERE = 3;
    /** So many come to the crest by clicks. */
    private static final double BY_CLICKS = 1e-6;
    /** So often an approach goes on like before, by steps that are unlike by so much. */
    private static final double LIKEWISE = 0.7;

    private static final double UNLIKE = 0.2;

    /** Fewer readings show no slope. */
    private static final int FEWEST = 4;

    private final AfterPasses after;
    private final CleanTrace trace;
    private final List<Still> steps;
    private final List<JogSteps.Size> sizes;
    private final Estimate crest;
    private final double farthestMiss_mm;
    private final double[] scores;
    private final int likeliest;

    /** @param farthestMiss_mm by which a stop may miss the crest */
    StopChoice(AfterPasses after, List<JogSteps.Size> sizes, Estimate crest, double farthestMiss_mm) {
        this.after = after;
        trace = after.trace();
        steps = after.steps();
        this.sizes = sizes;
        this.crest = crest;
        this.farthestMiss_mm = farthestMiss_mm;
        scores = scores();
        int at = -1;
        for (int i = 0; i < scores.length; i++) {
            if (scores[i] > (at < 0 ? Double.NEGATIVE_INFINITY : scores[at])) {
                at = i;
            }
        }
        likeliest = at;
    }

    private double[] scores() {
        double[] scores = new double[steps.size()];
        double waited = 0;
        for (int i = 0; i < scores.length; i++) {
            scores[i] = score(steps.get(i));
            if (scores[i] > Double.NEGATIVE_INFINITY) {
                scores[i] += jogGain(i) + approached(waited);
            }
            waited += waits(i);
        }
        return scores;
    }

    /** Empty where no level may be the stop. */
    Optional<Still> likeliest() {
        return likeliest < 0 ? Optional.empty() : Optional.of(steps.get(likeliest));
    }

    /** How far off the level is on which the person stopped, should it be another that is nearly as likely: root mean square. */
    double other_mm() {
        if (likeliest < 0) {
            return 0;
        }
        double all = 0;
        double squares = 0;
        for (int i = 0; i < scores.length; i++) {
            double likely = FastMath.exp(SCORE_COUNTS * (scores[i] - scores[likeliest]));
            double off = steps.get(i).level_mm() - steps.get(likeliest).level_mm();
            all += likely;
            squares += likely * off * off;
        }
        return FastMath.sqrt(squares / all);
    }

    /** How much better what came after a level is explained by clicks from there. */
    private double jogGain(int from) {
        int last = steps.size() - 1;
        if (from == last) {
            return 0;
        }
        Still stop = steps.get(from);
        Estimate level = new Estimate(stop.level_mm(), stdU_mm(stop), Double.POSITIVE_INFINITY);
        List<Still> between = after.between(stop);
        double zero_mm = steps.get(last).level_mm();
        JogSteps clicks = new JogSteps(between, sizes, level, zero_mm, after.reading_mm(), trace.resolution_mm());
        return clicks.logDensity() - otherwise(from, between) - rests(between);
    }

    /** How likely an approach in which the person waited like this is; some come by clicks, and then it stands at every level. In log likelihood. */
    private static double approached(double waited) {
        double most = Math.max(0, -waited);
        return most + FastMath.log((1 - BY_CLICKS) * FastMath.exp(-waited - most) + BY_CLICKS * FastMath.exp(-most));
    }

    /** A jog goes on at a pace: what takes far longer than its waits was the stop itself, mostly. In log likelihood. */
    private double rests(List<Still> between) {
        double[] seconds = between.stream()
                .mapToDouble(step -> step.seconds(trace))
                .sorted()
                .toArray();
        if (seconds.length < FEWEST) {
            return 0;
        }
        double usual_s = Math.max(seconds[seconds.length / 2], SHORTEST_WAIT_s);
        return RESTS * Arrays.stream(seconds).filter(s -> s > LONGER * usual_s).count();
    }

    /** How likely the levels after one are where no jog led to them, in log density. */
    private double otherwise(int from, List<Still> between) {
        List<Still> all = new ArrayList<>(between);
        all.add(0, steps.get(from));
        all.add(steps.get(steps.size() - 1));
        Optional<Still> beforeThat = from > 0 ? Optional.of(steps.get(from - 1)) : Optional.empty();
        double log = 0;
        for (int i = 1; i < all.size(); i++) {
            log += FastMath.log(approached(beforeThat, all.get(i - 1), all.get(i)));
            beforeThat = Optional.of(all.get(i - 1));
        }
        return log;
    }

    /** The density of a level that moves anywhere; or, where the crest is approached, by as much of the way as before, where the drop grows with the square of the way. */
    private double approached(Optional<Still> beforeThat, Still before, Still level) {
        double u = stdU_mm(level) + 0.1 * after.reading_mm();
        double anywhere = 1 / (ANYWHERE * FastMath.hypot(level.level_mm() - before.level_mm(), u));
        if (beforeThat.isEmpty() || !(way(beforeThat.get()) > way(before) && way(before) > 0)) {
            return anywhere;
        }
        double way = 2 * way(before) - way(beforeThat.get());
        double moves = way(before) * way(before) - way * way;
        double sigma = FastMath.hypot(u, UNLIKE * moves);
        double off = (level.level_mm() - before.level_mm() - moves) / sigma;
        double likewise = FastMath.exp(-off * off / 2) / (FastMath.sqrt(2 * FastMath.PI) * sigma);
        return (1 - LIKEWISE) * anywhere + LIKEWISE * likewise;
    }

    /** From the crest, as the root of the drop. */
    private double way(Still level) {
        return FastMath.sqrt(Math.max(0, crest.value() - level.level_mm()));
    }

    /**
     * How likely it is of a level that the person waited there. Between clicks the reading stands; where a level is cut out of a slow
     * approach it slopes, by about what it is off the level before. In log likelihood.
     */
    private double waits(int at) {
        Still step = steps.get(at);
        double seconds = step.seconds(trace);
        if (at == 0 || step.to() - step.from() < FEWEST || seconds < SHORTEST_WAIT_s) {
            return 0;
        }
        double off_mm = Math.abs(step.level_mm() - steps.get(at - 1).level_mm());
        double ramp = off_mm / stdU_mm(step) / FastMath.sqrt(12);
        double slope = Math.abs(after.levels().slope(step.from(), step.to()));
        double likelier = ((slope - ramp) * (slope - ramp) - slope * slope) / 2;
        return Math.max(-WAITS, Math.min(WAITS, likelier));
    }

    private double stdU_mm(Still step) {
        return after.reading_mm() / FastMath.sqrt(step.to() - step.from());
    }

    private double score(Still step) {
        double seconds = step.seconds(trace);
        double u = FastMath.hypot(crest.stdU(), stdU_mm(step) + 0.1 * after.reading_mm());
        double miss = crest.value() - step.level_mm();
        if (seconds < SHORTEST_STOP_s || miss > farthestMiss_mm || miss < -TOO_HIGH * u) {
            return Double.NEGATIVE_INFINITY;
        }
        double above = Math.max(0, -miss) / u;
        double slope = after.levels().slope(after.inner(step), step.to());
        return 2 * FastMath.log(Math.min(seconds, LONG_s))
                - FastMath.log(Math.max(miss, 0) + u)
                - above * above / 2
                - Math.min(slope * slope / 2, APPROACHES);
    }
}

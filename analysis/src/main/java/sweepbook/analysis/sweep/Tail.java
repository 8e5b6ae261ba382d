package sweepbook.analysis.sweep;

import java.util.Arrays;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import org.hipparchus.util.FastMath;
import sweepbook.analysis.uncertainty.Estimate;
import sweepbook.analysis.uncertainty.Finding;

/** What the person did after the last pass: stop on the crest, jog, hold still. */
final class Tail {
    /** The stop misses the crest by no more than this, or by a part of the fall of the passes. */
    private static final double MISS_mm = 0.02;

    private static final double MISS_OF_FALL = 0.15;
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
    /** What is over so soon was taken on the way, and a jog that is over so soon is one move. */
    private static final int BRIEF = 2;

    private static final double BRIEF_s = 0.1;
    private static final double ONE_MOVE_s = 0.4;

    /** A jog that ends so many standard uncertainties, and this part of a click, off whole clicks did not move in clicks. */
    private static final double OFF_SEEN = 4;

    private static final double OFF_CLICK = 0.2;

    private static final double APPROACH = 0.25;
    private static final double SLOW_APPROACH_s = 0.35;
    private static final int FEWEST = 4;
    /** Squares over the variance of what noise hides of a click that came too soon, and how far off it is then as a rule. */
    private static final double HIDDEN_CLICK = 20;

    private static final double UNSEEN_CLICK = 0.25;

    /** What the scores of two stops leave out is as much as they say: they count half. */
    private static final double SCORE_COUNTS = 0.5;

    private final AfterPasses after;
    private final CleanTrace trace;
    private final DwellLevel levels;
    private final double reading_mm;
    private final List<Still> steps;
    private final double farthestMiss_mm;
    private final List<JogSteps.Size> sizes;
    private final Optional<Still> dwell;
    private final Optional<Estimate> dwellLevel;
    private final JogClicks clicks;
    private final double otherStop_mm;

    /**
     * @param crest of the passes, empty where there is none
     * @param fall_mm how far the passes fall
     */
    Tail(AfterPasses after, Told told, Optional<Estimate> crest, double fall_mm) {
        this.after = after;
        trace = after.trace();
        levels = after.levels();
        reading_mm = after.reading_mm();
        steps = after.steps();
        double move = trace.leastMove_mm();
        farthestMiss_mm = Math.max(Math.max(MISS_mm, MISS_OF_FALL * fall_mm), 2 * move);
        sizes = JogSteps.sizes(told.jogStep_mm(), trace.resolution_mm());
        double[] scores = crest.map(this::stopScores).orElse(new double[0]);
        dwell = stop(scores);
        otherStop_mm = otherStop_mm(scores);
        dwellLevel = dwell.map(still -> levels.all(inner(still), still.to()).level());
        clicks = jogged() ? clicks(dwellLevel.orElseThrow(), after.restLevel().value(), between()) : JogClicks.NONE;
    }

    /**
     * The level on which the person stopped before the first jog: long, and near the crest. It cannot lie above the crest,
     * and how far below nobody knows. What comes after it is explained by clicks, and stands in between; what comes before it
     * is not, or slopes.
     */
    private double[] stopScores(Estimate crest) {
        double[] scores = new double[steps.size()];
        Map<Still, Double> waits = waits();
        for (int i = 0; i < scores.length; i++) {
            scores[i] = stopScore(steps.get(i), crest);
            if (scores[i] > Double.NEGATIVE_INFINITY) {
                scores[i] += jogGain(i, waits) + waits.get(steps.get(i));
            }
        }
        return scores;
    }

    private Optional<Still> stop(double[] scores) {
        int at = -1;
        double best = Double.NEGATIVE_INFINITY;
        for (int i = 0; i < scores.length; i++) {
            if (scores[i] > best) {
                best = scores[i];
                at = i;
            }
        }
        return at < 0 ? Optional.empty() : Optional.of(steps.get(at));
    }

    /** How far off the level is on which the person stopped, should it be another that is nearly as likely: root mean square. */
    private double otherStop_mm(double[] scores) {
        if (dwell.isEmpty()) {
            return 0;
        }
        double best = Arrays.stream(scores).max().orElseThrow();
        double all = 0;
        double squares = 0;
        for (int i = 0; i < scores.length; i++) {
            double likely = FastMath.exp(SCORE_COUNTS * (scores[i] - best));
            double off = steps.get(i).level_mm() - dwell.get().level_mm();
            all += likely;
            squares += likely * off * off;
        }
        return FastMath.sqrt(squares / all);
    }

    /** How much better what came after a level is explained by clicks from there. */
    private double jogGain(int from, Map<Still, Double> waits) {
        int last = steps.size() - 1;
        if (from == last) {
            return 0;
        }
        Still stop = steps.get(from);
        Estimate level = new Estimate(stop.level_mm(), stdU_mm(stop), Double.POSITIVE_INFINITY);
        List<Still> between = between(from);
        return jog(level, steps.get(last).level_mm(), between).gain()
                + between.stream().mapToDouble(waits::get).sum()
                + waits.get(steps.get(last));
    }

    /**
     * How likely it is of each level that the person waited there. Between clicks the reading stands; where a level is cut out of a slow approach it slopes, by about what it is off the
     * level before. In log likelihood.
     */
    private Map<Still, Double> waits() {
        Map<Still, Double> waits = new HashMap<>();
        for (int i = 0; i < steps.size(); i++) {
            waits.put(steps.get(i), waits(i));
        }
        return waits;
    }

    private double waits(int at) {
        Still step = steps.get(at);
        double seconds = step.seconds(trace);
        if (at == 0 || step.to() - step.from() < FEWEST || seconds < SHORTEST_WAIT_s) {
            return 0;
        }
        double off_mm = Math.abs(step.level_mm() - steps.get(at - 1).level_mm());
        double ramp = off_mm / stdU_mm(step) / FastMath.sqrt(12);
        double slope = Math.abs(levels.slope(step.from(), step.to()));
        double likelier = ((slope - ramp) * (slope - ramp) - slope * slope) / 2;
        return Math.max(-WAITS, Math.min(WAITS, likelier));
    }

    private double stdU_mm(Still step) {
        return reading_mm / FastMath.sqrt(step.to() - step.from());
    }

    private double stopScore(Still step, Estimate crest) {
        double seconds = step.seconds(trace);
        double u = FastMath.hypot(crest.stdU(), stdU_mm(step) + 0.1 * reading_mm);
        double miss = crest.value() - step.level_mm();
        if (seconds < SHORTEST_STOP_s || miss > farthestMiss_mm || miss < -TOO_HIGH * u) {
            return Double.NEGATIVE_INFINITY;
        }
        double above = Math.max(0, -miss) / u;
        double slope = levels.slope(inner(step), step.to());
        return 2 * FastMath.log(Math.min(seconds, LONG_s))
                - FastMath.log(Math.max(miss, 0) + u)
                - above * above / 2
                - Math.min(slope * slope / 2, APPROACHES);
    }

    Finding<DwellLevel.Level> stableZero() {
        return after.stableZero();
    }

    /** The stop as a witness of the crest. */
    Optional<CrestStop> stopOnCrest() {
        return dwell.map(still -> {
            Estimate level = dwellLevel.orElseThrow();
            double least_mm = Math.max(trace.resolution_mm(), reading_mm);
            return new CrestStop(
                    (trace.time_s()[still.from()] + trace.time_s()[still.to() - 1]) / 2,
                    level.value(),
                    Math.max(level.stdU(), 0.1 * least_mm),
                    0.5 * least_mm,
                    farthestMiss_mm);
        });
    }

    /** Whether the person jogged after the stop on the crest. */
    boolean jogged() {
        return dwell.isPresent() && rest().isPresent() && !dwell.equals(rest());
    }

    /** The stretch on the crest before the first jog. */
    Optional<Still> dwell() {
        return dwell;
    }

    /** The stretch at rest at the end. */
    Optional<Still> rest() {
        return after.rest();
    }

    Finding<DwellLevel.Level> crestDwell() {
        if (dwell.isEmpty()) {
            return Finding.notDetermined("no stop on the crest after the last pass: stop there and hold still");
        }
        if (!jogged()) {
            return stableZero().map(this::orOther);
        }
        Estimate level = dwellLevel.orElseThrow();
        double u = FastMath.hypot(level.stdU(), unseenClick_mm());
        Still still = dwell.get();
        return Finding.found(orOther(new DwellLevel.Level(
                new Estimate(level.value(), u, level.degreesOfFreedom()), inner(still), still.to(), 0, 0)));
    }

    private DwellLevel.Level orOther(DwellLevel.Level stop) {
        Estimate level = stop.level();
        return new DwellLevel.Level(
                new Estimate(
                        level.value(),
                        FastMath.hypot(level.stdU(), otherStop_mm),
                        level.degreesOfFreedom(),
                        level.breadth()),
                stop.from(),
                stop.to(),
                stop.slope_mm_per_s(),
                stop.begins_mm());
    }

    /** Where noise hides when the jog began, the dwell may hold a part of its first click. */
    private double unseenClick_mm() {
        if (clicks.count() == 0) {
            return 0;
        }
        Still still = dwell.orElseThrow();
        double hidden = HIDDEN_CLICK * reading_mm * reading_mm / clicks.step_mm() / (still.to() - inner(still));
        return UNSEEN_CLICK * Math.min(clicks.step_mm(), hidden);
    }

    /** The clicks of the jog; sign turns their travel back into the direction of the readings. */
    JogClicks clicks(int sign) {
        return clicks.count() == 0
                ? clicks
                : new JogClicks(clicks.count(), clicks.net(), clicks.step_mm(), sign * clicks.travel_mm());
    }

    private JogClicks clicks(Estimate from, double to_mm, List<Still> between) {
        return jog(from, to_mm, between).clicks();
    }

    private JogSteps jog(Estimate from, double to_mm, List<Still> between) {
        return new JogSteps(between, sizes, from, to_mm, reading_mm, trace.resolution_mm());
    }

    /** How far the last dwell lies off a whole number of clicks, where that is more than chance. */
    OptionalDouble offClicks_mm() {
        if (clicks.count() == 0) {
            return OptionalDouble.empty();
        }
        double off = Math.abs(clicks.travel_mm() - clicks.net() * clicks.step_mm());
        double u = FastMath.hypot(
                dwellLevel.orElseThrow().stdU(), after.restLevel().stdU());
        return off > Math.max(OFF_SEEN * u, OFF_CLICK * clicks.step_mm())
                ? OptionalDouble.of(off)
                : OptionalDouble.empty();
    }

    private List<Still> between() {
        return between(steps.indexOf(dwell.orElseThrow()));
    }

    /** The levels after one up to the last; a brief one was taken on the way, but where a jog shows no other. */
    private List<Still> between(int stop) {
        List<Still> all = steps.subList(stop + 1, Math.max(stop + 1, steps.size() - 1));
        List<Still> standing = all.stream()
                .filter(step -> step.to() - step.from() > BRIEF && step.seconds(trace) > BRIEF_s)
                .toList();
        boolean isOneMove = all.isEmpty()
                || trace.time_s()[all.get(all.size() - 1).to() - 1]
                                - trace.time_s()[all.get(0).from()]
                        < ONE_MOVE_s;
        return standing.isEmpty() && !isOneMove ? all : standing;
    }

    /** When the last dwell begins: when the next click would have come, or when it has settled. */
    double zeroFrom_s(DwellLevel.Level level) {
        double begin_s = trace.time_s()[rest().orElseThrow().from()];
        double used_s = trace.time_s()[level.from()];
        return used_s > begin_s + DwellLevel.UNSEEN_s + wait_s()
                ? used_s
                : Math.min(begin_s + wait_s(), (begin_s + trace.time_s()[trace.size() - 1]) / 2);
    }

    /** Standard uncertainty of that: a person who waits a little longer after a click, or approaches the crest slowly. */
    double zeroFromU_s() {
        return wait_s() > 0 ? wait_s() / 3 : SLOW_APPROACH_s;
    }

    private double wait_s() {
        if (!jogged() || between().isEmpty()) {
            return 0;
        }
        double[] waits = between().stream()
                .mapToDouble(
                        still -> trace.time_s()[Math.min(still.to(), trace.size() - 1)] - trace.time_s()[still.from()])
                .sorted()
                .toArray();
        return waits[waits.length / 2];
    }

    /** The end of the approach looks like the dwell itself: its first part is not trusted. */
    private int inner(Still still) {
        double begin_s = trace.time_s()[still.from()] + APPROACH * still.seconds(trace);
        int from = still.from();
        while (still.to() - from > FEWEST && trace.time_s()[from] < begin_s) {
            from++;
        }
        return from;
    }
}

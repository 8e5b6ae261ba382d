package sweepbook.analysis.sweep;

import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.stream.Stream;
import org.hipparchus.util.FastMath;
import sweepbook.analysis.uncertainty.Estimate;
import sweepbook.analysis.uncertainty.Finding;

/** What the person did after the last pass: stop on the crest, jog, hold still. */
final class Tail {
    /** The stop misses the crest by no more than this, or by a part of the fall of the passes. */
    private static final double MISS_mm = 0.02;

    private static final double MISS_OF_FALL = 0.15;
    /** A jog that ends so many standard uncertainties, and this part of a click, off whole clicks did not move in clicks. */
    private static final double OFF_SEEN = 4;

    private static final double OFF_CLICK = 0.2;

    private static final double SLOW_APPROACH_s = 0.35;
    /** Squares over the variance of what noise hides of a click that came too soon, and how far off it is then as a rule. */
    private static final double HIDDEN_CLICK = 20;

    private static final double UNSEEN_CLICK = 0.25;

    private final AfterPasses after;
    private final CleanTrace trace;
    private final DwellLevel levels;
    private final double reading_mm;
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
        double move = trace.leastMove_mm();
        farthestMiss_mm = Math.max(Math.max(MISS_mm, MISS_OF_FALL * fall_mm), 2 * move);
        sizes = JogSteps.sizes(told.jogStep_mm(), trace.resolution_mm());
        Optional<StopChoice> stop = crest.map(at -> new StopChoice(after, sizes, at, farthestMiss_mm));
        dwell = stop.flatMap(StopChoice::likeliest);
        otherStop_mm = stop.map(StopChoice::other_mm).orElse(0.0);
        dwellLevel =
                dwell.map(still -> levels.all(after.inner(still), still.to()).level());
        clicks = jogged() ? clicks(dwellLevel.orElseThrow(), after.restLevel().value()) : JogClicks.NONE;
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

    /** How the reading moved in the stop and in the rest at the end. */
    List<RestSlope> slopes() {
        return Stream.concat(dwell.stream(), rest().stream())
                .distinct()
                .flatMap(still -> levels.moves(after.inner(still), still.to()).stream())
                .toList();
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
            return stableZero().map(stop -> stop.with(otherStop_mm));
        }
        Estimate level = dwellLevel.orElseThrow();
        double u = FastMath.hypot(level.stdU(), unseenClick_mm());
        Still still = dwell.get();
        return Finding.found(new DwellLevel.Level(
                        new Estimate(level.value(), u, level.degreesOfFreedom()), after.inner(still), still.to(), 0, 0)
                .with(otherStop_mm));
    }

    /** Where noise hides when the jog began, the dwell may hold a part of its first click. */
    private double unseenClick_mm() {
        if (clicks.count() == 0) {
            return 0;
        }
        Still still = dwell.orElseThrow();
        double hidden = HIDDEN_CLICK * reading_mm * reading_mm / clicks.step_mm() / (still.to() - after.inner(still));
        return UNSEEN_CLICK * Math.min(clicks.step_mm(), hidden);
    }

    /** The clicks of the jog; sign turns their travel back into the direction of the readings. */
    JogClicks clicks(int sign) {
        return clicks.count() == 0
                ? clicks
                : new JogClicks(clicks.count(), clicks.net(), clicks.step_mm(), sign * clicks.travel_mm());
    }

    private JogClicks clicks(Estimate from, double to_mm) {
        return new JogSteps(between(), sizes, from, to_mm, reading_mm, trace.resolution_mm()).clicks();
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
        return after.between(dwell.orElseThrow());
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
}

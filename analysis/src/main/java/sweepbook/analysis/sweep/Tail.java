package sweepbook.analysis.sweep;

import java.util.ArrayList;
import java.util.List;
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
    /** Levels closer than this are one dwell: the better part of the smallest jog click, a hundredth of a millimetre. */
    private static final double ONE_LEVEL_mm = 0.006;

    private static final double SHORTEST_REST_s = 0.6;
    private static final double SHORTEST_STOP_s = 0.25;
    /** Standard uncertainties by which a stop may seem to stand above the crest. */
    private static final double TOO_HIGH = 5;

    private static final double AS_LIKELY = 1;

    /** A jog that ends so many standard uncertainties, and this part of a click, off whole clicks did not move in clicks. */
    private static final double OFF_SEEN = 4;

    private static final double OFF_CLICK = 0.2;

    private static final double APPROACH = 0.25;
    private static final int FEWEST = 4;

    private final CleanTrace trace;
    private final DwellLevel levels;
    private final double farthestMiss_mm;
    private final double reading_mm;
    private final int standsFrom;
    private final List<Still> steps;
    private final Optional<Still> dwell;
    private final Optional<Still> rest;
    private final Finding<DwellLevel.Level> stableZero;

    /**
     * @param words in which reasons speak of lengths
     * @param afterPasses reading after the last pass
     * @param crest of the passes, empty where there is none
     * @param fall_mm how far the passes fall
     * @param noise_mm standard deviation of a reading, without rounding
     * @param standsFrom_s since when the last reading was seen to stand while it was captured; NaN where it was not
     */
    Tail(
            CleanTrace trace,
            LengthWords words,
            int afterPasses,
            Optional<Estimate> crest,
            double fall_mm,
            double noise_mm,
            double standsFrom_s) {
        this.trace = trace;
        double q = trace.resolution_mm();
        reading_mm = Math.sqrt(noise_mm * noise_mm + q * q / 12);
        levels = new DwellLevel(trace, words, noise_mm);
        double move = PassFinder.leastMove_mm(trace);
        double miss = Math.max(Math.max(MISS_mm, MISS_OF_FALL * fall_mm), 2 * move);
        farthestMiss_mm = miss;
        standsFrom = first(standsFrom_s);
        int from = Math.min(afterPasses, standsFrom);
        List<Still> stills = Still.in(trace, from, PassFinder.band_mm(trace));
        double variance =
                Math.max(Math.max(reading_mm * reading_mm, RestNoise.hangingTogether_mm2(trace, stills)), 1e-14);
        rest = rest(Staircase.last(trace, from, trace.size(), variance, ONE_LEVEL_mm));
        steps = new ArrayList<>(
                Staircase.levels(trace, from, rest.map(Still::from).orElse(trace.size()), variance, ONE_LEVEL_mm));
        rest.ifPresent(steps::add);
        dwell = crest.flatMap(this::stop);
        stableZero = zero();
    }

    /** The first reading of the stretch that was seen to stand; past the end where none was. */
    private int first(double standsFrom_s) {
        int i = 0;
        while (i < trace.size() && !(trace.time_s()[i] >= standsFrom_s)) {
            i++;
        }
        return i;
    }

    /** The last stretch, of which what was seen to stand is a part. */
    private Optional<Still> rest(Optional<Still> last) {
        if (standsFrom == trace.size()
                || last.filter(still -> still.from() <= standsFrom).isPresent()) {
            return last;
        }
        double level = levels.all(standsFrom, trace.size()).level().value();
        return Optional.of(new Still(standsFrom, trace.size(), level));
    }

    /**
     * The level on which the person stopped before the first jog: long, and near the crest. It cannot lie above the crest,
     * and how far below nobody knows. The approach before it is made of short pieces, the waits of the jog after it may
     * be as long: of levels that are nearly as likely the first one is it.
     */
    private Optional<Still> stop(Estimate crest) {
        double best =
                steps.stream().mapToDouble(step -> stopScore(step, crest)).max().orElse(Double.NEGATIVE_INFINITY);
        return steps.stream()
                .filter(step -> stopScore(step, crest) > best - AS_LIKELY)
                .findFirst();
    }

    private double stopScore(Still step, Estimate crest) {
        double seconds = step.seconds(trace);
        double level = reading_mm / FastMath.sqrt(step.to() - step.from());
        double u = FastMath.hypot(crest.stdU(), level + 0.1 * reading_mm);
        double miss = crest.value() - step.level_mm();
        if (seconds < SHORTEST_STOP_s || miss > farthestMiss_mm || miss < -TOO_HIGH * u) {
            return Double.NEGATIVE_INFINITY;
        }
        double above = Math.max(0, -miss) / u;
        return 2 * FastMath.log(seconds) - FastMath.log(Math.max(miss, 0) + u) / 2 - above * above / 2;
    }

    private Finding<DwellLevel.Level> zero() {
        if (rest.isEmpty() || rest.get().seconds(trace) < SHORTEST_REST_s) {
            return Finding.notDetermined(
                    trace.size() == 0
                            ? "no readings: check that the indicator sends"
                            : "the trace ends before the reading stands: hold still at the end");
        }
        Finding<DwellLevel.Level> settled = levels.settled(rest.get().from(), trace.size());
        return settled.isFound() || standsFrom == trace.size()
                ? settled
                : Finding.found(levels.all(standsFrom, trace.size()));
    }

    Finding<DwellLevel.Level> stableZero() {
        return stableZero;
    }

    /** The stop as a witness of the crest. */
    Optional<CrestStop> stopOnCrest() {
        return dwell.map(still -> {
            Estimate level = levels.all(inner(still), still.to()).level();
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
        return dwell.isPresent() && rest.isPresent() && !dwell.equals(rest);
    }

    /** The stretch on the crest before the first jog. */
    Optional<Still> dwell() {
        return dwell;
    }

    /** The stretch at rest at the end. */
    Optional<Still> rest() {
        return rest;
    }

    Finding<DwellLevel.Level> crestDwell() {
        if (dwell.isEmpty()) {
            return Finding.notDetermined("no stop on the crest after the last pass: stop there and hold still");
        }
        return jogged()
                ? Finding.found(levels.all(inner(dwell.get()), dwell.get().to()))
                : stableZero;
    }

    /** The clicks of the jog; sign turns their travel back into the direction of the readings. */
    JogClicks clicks(int sign) {
        return jogged()
                ? new JogSteps(
                                between(),
                                trace.resolution_mm(),
                                dwellLevel().value(),
                                restLevel().value(),
                                reading_mm)
                        .clicks(sign)
                : JogClicks.NONE;
    }

    /** How far the last dwell lies off a whole number of clicks, where that is more than chance. */
    OptionalDouble offClicks_mm() {
        JogClicks clicks = clicks(1);
        if (clicks.count() == 0) {
            return OptionalDouble.empty();
        }
        double off = Math.abs(clicks.travel_mm() - clicks.net() * clicks.step_mm());
        double u = FastMath.hypot(dwellLevel().stdU(), restLevel().stdU());
        return off > Math.max(OFF_SEEN * u, OFF_CLICK * clicks.step_mm())
                ? OptionalDouble.of(off)
                : OptionalDouble.empty();
    }

    private Estimate dwellLevel() {
        Still still = dwell.orElseThrow();
        return levels.all(inner(still), still.to()).level();
    }

    private Estimate restLevel() {
        Still still = rest.orElseThrow();
        return levels.all(still.from(), still.to()).level();
    }

    private List<Still> between() {
        return steps.subList(steps.indexOf(dwell.orElseThrow()) + 1, steps.size() - 1);
    }

    /** When the last dwell begins: when the next click would have come. */
    double zeroFrom_s() {
        return Math.min(trace.time_s()[rest.orElseThrow().from()] + wait_s(), trace.time_s()[trace.size() - 1]);
    }

    double wait_s() {
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

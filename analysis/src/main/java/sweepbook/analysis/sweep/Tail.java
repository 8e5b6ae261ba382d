package sweepbook.analysis.sweep;

import java.util.List;
import java.util.Optional;
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
    /** A last level shorter than this may be a part of a creep. */
    private static final double SHORT_s = 2;
    /** A level before the last one of so much of its length, and as near, hints at a creep rather than at a jog. */
    private static final double CREEP_HINT = 0.5;

    private final CleanTrace trace;
    private final DwellLevel levels;
    private final double farthestMiss_mm;
    private final double reading_mm;
    private final Optional<Still> dwell;
    private final Optional<Still> rest;
    private final Finding<DwellLevel.Level> stableZero;

    /**
     * @param from reading after the last pass
     * @param crest of the passes, empty where there is none
     * @param fall_mm how far the passes fall
     * @param noise_mm standard deviation of a reading, without rounding
     */
    Tail(CleanTrace trace, List<Still> stills, int from, Optional<Estimate> crest, double fall_mm, double noise_mm) {
        this.trace = trace;
        double q = trace.resolution_mm();
        reading_mm = Math.sqrt(noise_mm * noise_mm + q * q / 12);
        levels = new DwellLevel(trace, noise_mm);
        List<Still> after = stills.stream()
                .filter(s -> s.from() >= from || s.to() == trace.size())
                .toList();
        Optional<Still> last =
                after.stream().filter(s -> s.to() >= trace.size() - 2).findFirst();
        double move = PassFinder.leastMove_mm(trace);
        double miss = Math.max(Math.max(MISS_mm, MISS_OF_FALL * fall_mm), 2 * move);
        farthestMiss_mm = miss;
        Optional<Still> onCrest = crest.flatMap(h -> stop(after, h.value() - miss, h.value() + move));
        int start = onCrest.or(() -> last).map(Still::from).orElse(trace.size());
        List<Still> steps = start == trace.size()
                ? List.of()
                : Levels.of(trace, start, trace.size(), Math.max(reading_mm * reading_mm, 1e-14));
        // A still stretch may hold the end of the approach, or the first clicks: the dwell is the most of it.
        dwell = onCrest.flatMap(
                still -> steps.stream().max((x, y) -> Integer.compare(overlap(x, still), overlap(y, still))));
        rest = last.isPresent() && !steps.isEmpty() ? Optional.of(steps.get(steps.size() - 1)) : Optional.empty();
        stableZero = zero(steps, crest.isPresent());
    }

    /** The longest stretch between two levels, before the reading leaves them for good: slow approaches and clicks are shorter. */
    private Optional<Still> stop(List<Still> after, double low, double high) {
        Still longest = null;
        for (Still still : after) {
            if (still.level_mm() > low && still.level_mm() < high) {
                if (longest == null || still.seconds(trace) > longest.seconds(trace)) {
                    longest = still;
                }
            } else if (longest != null) {
                break;
            }
        }
        return Optional.ofNullable(longest);
    }

    private static int overlap(Still a, Still b) {
        return Math.min(a.to(), b.to()) - Math.max(a.from(), b.from());
    }

    private Finding<DwellLevel.Level> zero(List<Still> steps, boolean swept) {
        if (rest.isEmpty() || rest.get().seconds(trace) < SHORTEST_REST_s) {
            return Finding.notDetermined(
                    trace.size() == 0
                            ? "no readings: check that the indicator sends"
                            : "the trace ends before the reading stands: hold still at the end");
        }
        if (swept && dwell.isEmpty()) {
            return Finding.notDetermined("no stop on the crest after the last pass: stop there and hold still");
        }
        int from = rest.get().from();
        for (int i = steps.size() - 1; i > 0 && creeps(steps.get(i - 1), steps.get(i)); i--) {
            from = steps.get(i - 1).from();
        }
        return levels.settled(from, trace.size());
    }

    /** Whether one level before another looks like a part of a creep rather than like a jog. */
    private boolean creeps(Still before, Still level) {
        double change = Math.abs(before.level_mm() - level.level_mm());
        boolean stands = before.seconds(trace) > SHORTEST_REST_s / 2;
        boolean lasts =
                before.seconds(trace) > CREEP_HINT * level.seconds(trace) || stands && level.seconds(trace) < SHORT_s;
        return change < ONE_LEVEL_mm / 2 && stands || lasts && change <= 1.5 * PassFinder.band_mm(trace);
    }

    Finding<DwellLevel.Level> stableZero() {
        return stableZero;
    }

    /** By how much the stop may have missed the crest at most. */
    double farthestMiss_mm() {
        return farthestMiss_mm;
    }

    /** The stop as a witness of the crest. */
    Optional<CrestStop> stopOnCrest() {
        return dwell.map(still -> {
            Estimate level = levels.all(still.from(), still.to()).level();
            return new CrestStop(
                    (trace.time_s()[still.from()] + trace.time_s()[still.to() - 1]) / 2,
                    level.value(),
                    Math.max(level.stdU(), 0.1 * Math.max(trace.resolution_mm(), reading_mm)),
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
            return Finding.notDetermined("no stop on the crest after the last pass");
        }
        return jogged()
                ? Finding.found(levels.all(dwell.get().from(), dwell.get().to()))
                : stableZero;
    }

    /** The clicks of the jog; sign turns their travel back into the direction of the readings. */
    JogClicks clicks(int sign) {
        if (!jogged()) {
            return JogClicks.NONE;
        }
        Still from = dwell.get();
        Still to = rest.get();
        double dwell_mm = levels.all(from.from(), from.to()).level().value();
        double zero_mm = levels.all(to.from(), to.to()).level().value();
        return new JogSteps(trace, from.to(), to.from(), dwell_mm, zero_mm, reading_mm).clicks(sign);
    }
}

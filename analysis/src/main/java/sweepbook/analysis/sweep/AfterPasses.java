package sweepbook.analysis.sweep;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import sweepbook.analysis.uncertainty.Estimate;
import sweepbook.analysis.uncertainty.Finding;

/** On which levels the reading stood after the last pass, wherever the crest may be, and whether the last of them is a zero. */
final class AfterPasses {
    /** Levels closer than this are one dwell: the better part of the smallest jog click, a hundredth of a millimetre. */
    private static final double ONE_LEVEL_mm = 0.006;

    private static final double SHORTEST_REST_s = 0.6;
    /** Where a rest still moves, the jog before it ended at this part of it. */
    private static final int FIRST_PART = 8;

    private static final int FEWEST = 8;
    /** In steps: of less a rest tells little. */
    private static final double LEAST_TOLD = 0.3;
    /** Of a level this part at its begin is not trusted, where so many readings are left. */
    private static final double APPROACH = 0.25;

    private static final int FEWEST_INNER = 4;
    /** What is over so soon was taken on the way, and a jog that is over so soon is one move. */
    private static final int BRIEF = 2;

    private static final double BRIEF_s = 0.1;
    private static final double ONE_MOVE_s = 0.4;

    private final CleanTrace trace;
    private final DwellLevel levels;
    private final double calm_mm;
    private final double reading_mm;
    private final int standsFrom;
    private final List<Still> steps;
    private final Optional<Still> rest;
    private final Finding<DwellLevel.Level> stableZero;

    /**
     * @param from reading after the last pass
     * @param noise_mm standard deviation of a reading, without rounding
     */
    AfterPasses(CleanTrace trace, Told told, int from, double noise_mm) {
        this.trace = trace;
        double q = trace.resolution_mm();
        standsFrom = first(told.standsFrom_s());
        int begin = Math.min(from, standsFrom);
        List<Still> stills = Still.in(trace, begin, trace.band_mm());
        // What no motion explains, and times that are late, make noise of the passes and not of a rest.
        double atRest_mm = RestNoise.of(trace, stills).orElse(noise_mm);
        calm_mm = Math.min(noise_mm, Math.max(atRest_mm, LEAST_TOLD * q));
        reading_mm = Math.sqrt(calm_mm * calm_mm + q * q / 12);
        levels = new DwellLevel(trace, told.words(), calm_mm);
        double variance = Math.max(
                Math.max(reading_mm * reading_mm, RestNoise.hangingTogether_mm2(trace, stills, reading_mm)), 1e-14);
        rest = rest(Staircase.last(trace, begin, trace.size(), variance, ONE_LEVEL_mm));
        steps = new ArrayList<>(
                Staircase.levels(trace, begin, rest.map(Still::from).orElse(trace.size()), variance, ONE_LEVEL_mm));
        rest.ifPresent(steps::add);
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

    private Finding<DwellLevel.Level> zero() {
        if (rest.isEmpty() || rest.get().seconds(trace) < SHORTEST_REST_s) {
            return Finding.notDetermined(
                    trace.size() == 0
                            ? "no readings: check that the indicator sends"
                            : "the trace ends before the reading stands: hold still at the end");
        }
        if (standsFrom == trace.size()
                && calm_mm <= LEAST_TOLD * trace.resolution_mm()
                && new LastDigit(trace, steps).mayCreep()) {
            return Finding.notDetermined(
                    "the reading went from digit to digit, and stood on the last no longer than on the one"
                            + " before: hold still for longer at the end");
        }
        Finding<DwellLevel.Level> settled = levels.settled(rest.get().from(), trace.size());
        Finding<DwellLevel.Level> stands = settled.isFound() || standsFrom == trace.size()
                ? settled
                : Finding.found(levels.all(standsFrom, trace.size()));
        return stands.flatMap(level -> levels.isBeyondTelling(level)
                ? Finding.notDetermined(
                        "the reading never changes, and by how much it would is not known: tell the display's resolution")
                : stands);
    }

    CleanTrace trace() {
        return trace;
    }

    /** What stretches of the trace tell of their levels. */
    DwellLevel levels() {
        return levels;
    }

    /** Standard deviation of a reading, rounding included. */
    double reading_mm() {
        return reading_mm;
    }

    /** All levels in time order, the rest at the end among them. */
    List<Still> steps() {
        return steps;
    }

    /** The levels after one up to the last; a brief one was taken on the way, but where a jog shows no other. */
    List<Still> between(Still stop) {
        int next = steps.indexOf(stop) + 1;
        List<Still> all = steps.subList(next, Math.max(next, steps.size() - 1));
        List<Still> standing = all.stream()
                .filter(step -> step.to() - step.from() > BRIEF && step.seconds(trace) > BRIEF_s)
                .toList();
        boolean isOneMove = all.isEmpty()
                || trace.time_s()[all.get(all.size() - 1).to() - 1]
                                - trace.time_s()[all.get(0).from()]
                        < ONE_MOVE_s;
        return standing.isEmpty() && !isOneMove ? all : standing;
    }

    /** The end of the approach looks like the dwell itself: its first part is not trusted. */
    int inner(Still still) {
        double begin_s = trace.time_s()[still.from()] + APPROACH * still.seconds(trace);
        int from = still.from();
        while (still.to() - from > FEWEST_INNER && trace.time_s()[from] < begin_s) {
            from++;
        }
        return from;
    }

    /** The stretch at rest at the end. */
    Optional<Still> rest() {
        return rest;
    }

    Finding<DwellLevel.Level> stableZero() {
        return stableZero;
    }

    /** The level of the rest where the jog before it ended. */
    Estimate restLevel() {
        if (stableZero instanceof Finding.Found<DwellLevel.Level> found) {
            DwellLevel.Level level = found.value();
            return level.level().less(-level.begins_mm());
        }
        Still still = rest.orElseThrow();
        int readings = still.to() - still.from();
        // The jog ended where what still moves began.
        int part = Math.min(readings, Math.max(FEWEST, readings / FIRST_PART));
        return levels.all(still.from(), still.from() + part).level();
    }
}

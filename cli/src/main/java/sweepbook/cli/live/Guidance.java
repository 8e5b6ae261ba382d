package sweepbook.cli.live;

import sweepbook.analysis.offset.Feature;
import sweepbook.analysis.sweep.SweepNow;
import sweepbook.analysis.sweep.SweepNow.Phase;
import sweepbook.cli.live.Person.Question;
import sweepbook.cli.plan.PlannedOffset;
import sweepbook.cli.plan.TouchSeries.Habit;

/**
 * What a person is to do next in a touch.
 *
 * @param words the same in a few words
 */
record Guidance(Cue cue, String words) {
    static Guidance of(TouchCapture capture, Question question) {
        PlannedOffset offset = capture.station().offset();
        return switch (question) {
            case POSITION_ON_TRAVEL -> {
                String travel = offset.method().travelAxis().orElseThrow().name();
                yield type(travel, "the position of " + travel + ", along which it travels");
            }
            case POSITION_ON_CREST ->
                type(offset.axis().name(), offset.axis() + " as it was on the crest (Enter: not noted)");
            case POSITION_AT_THE_END -> type(offset.axis().name(), "the position of " + offset.axis());
            case READY, SWEEPING -> inMotion(capture, offset);
        };
    }

    private static Guidance type(String axis, String what) {
        return new Guidance(Cue.calling("TYPE " + axis), "stable: type " + what);
    }

    private static Guidance inMotion(TouchCapture capture, PlannedOffset offset) {
        SweepNow now = capture.now();
        boolean round = capture.station().planned().feature() instanceof Feature.Round;
        boolean atRest = now.phase() != Phase.MOVING;
        if (now.phase() == Phase.NO_READING) {
            return new Guidance(Cue.of("WAIT"), "no reading yet");
        }
        if (round && now.clicks() == 0 && (now.passes() == 0 || !atRest)) {
            return sweep(capture, now.passes());
        }
        boolean jogs = offset.habit() == Habit.JOG_TO_ZERO;
        boolean mayJog = !round || now.clicks() > 0 || now.phase() == Phase.STABLE;
        if (jogs && mayJog && !capture.isWithinHalfAClickOfZero()) {
            return new Guidance(Cue.of("JOG " + offset.axis()), "jog " + offset.axis() + " to zero");
        }
        if (now.phase() == Phase.STABLE) {
            return capture.lacking()
                    .map(why -> new Guidance(Cue.of("GO ON"), "stable, but " + why + "; go on, or redo"))
                    .orElse(new Guidance(Cue.of("HOLD"), "stable: hold still"));
        }
        return new Guidance(Cue.of("HOLD"), "hold still");
    }

    private static Guidance sweep(TouchCapture capture, int passes) {
        String along = "sweep along " + capture.station().planned().sweep();
        return passes == 0
                ? new Guidance(Cue.of("SWEEP"), along)
                : new Guidance(Cue.of("SWEEP " + passes), along + ", or stop on the high spot");
    }
}

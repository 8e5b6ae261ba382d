package sweepbook.cli.proof;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.concurrent.ConcurrentHashMap;
import java.util.function.Function;
import sweepbook.analysis.offset.EntryConvention;
import sweepbook.analysis.uncertainty.Budget;
import sweepbook.cli.plan.MadeTouch;
import sweepbook.cli.plan.PlanFile;
import sweepbook.cli.plan.PlannedOffset;
import sweepbook.cli.plan.Plans;
import sweepbook.simulator.machine.Axis;

/** An offset of a bundled plan, touched as the plan says, up to the entry of the controller's table. */
public enum BundledOffset implements Trial {
    SWIVEL_AXIS_TO_SPINDLE(
            "swivel-axis-to-spindle", "swivel-axis-to-spindle", setUp -> Scene.halfTurnOfTheSwivel(setUp, Axis.X)),
    SWIVEL_AXIS_TO_SPINDLE_Y(
            "swivel-axis-to-spindle", "swivel-axis-to-spindle-y", setUp -> Scene.halfTurnOfTheSwivel(setUp, Axis.Y)),
    SWIVEL_AXIS_TO_TILT_AXIS("swivel-axis-to-tilt-axis", "swivel-axis-to-tilt-axis", Scene::endAtBothTilts),
    TILT_AXIS_TO_SPINDLE("tilt-axis-to-spindle", "tilt-axis-to-spindle", Scene::halfTurnOfTheTilt),
    TILT_AXIS_TO_GAUGE_FACE("tilt-axis-to-gauge-face", "tilt-axis-to-gauge-face", Scene::tiltAxisToFace),
    SPINDLE_TO_DRILL("spindle-to-drill", "spindle-to-drill", setUp -> Scene.pinToPin(setUp, Axis.X)),
    SPINDLE_TO_DRILL_Y("spindle-to-drill", "spindle-to-drill-y", setUp -> Scene.pinToPin(setUp, Axis.Y)),
    SPINDLE_TO_DRILL_Z("spindle-to-drill", "spindle-to-drill-z", Scene::noseToNose),
    TILT_AXIS_TO_DRILL("tilt-axis-to-drill", "tilt-axis-to-drill", Scene::halfTurnOfTheTilt),
    TILT_AXIS_TO_DRILL_Z("tilt-axis-to-drill", "tilt-axis-to-drill-z", Scene::tiltAxisToFace),
    ZERO_OF_THE_SWIVEL("zero-of-the-swivel", "zero-of-the-swivel", Scene::plateAcross),
    ZERO_OF_THE_TILT("zero-of-the-tilt", "zero-of-the-tilt", Scene::barAlong),
    TRAM("tram", "tram", setUp -> Scene.swung(setUp, 0)),
    TRAM_Y("tram", "tram-y", setUp -> Scene.swung(setUp, 90));

    private static final Map<String, PlannedOffset> PLANNED = new ConcurrentHashMap<>();

    private final String plan;
    private final String offset;
    private final Function<SetUp, Scene> scene;

    BundledOffset(String plan, String offset, Function<SetUp, Scene> scene) {
        this.plan = plan;
        this.offset = offset;
        this.scene = scene;
    }

    @Override
    public String words() {
        return "plan " + plan + (plan.equals(offset) ? "" : ": " + offset);
    }

    @Override
    public Outcome of(long seed) {
        SetUp setUp = new SetUp(seed, true);
        Scene touched = scene.apply(setUp);
        PlannedOffset planned = PLANNED.computeIfAbsent(offset, name -> planned());
        List<MadeTouch> made = new ArrayList<>();
        for (int i = 0; i < planned.touches().size(); i++) {
            made.add(new MadeTouch(
                    i,
                    planned.touches().get(i),
                    touched.touches().get(i),
                    touched.travels_mm().get(i)));
        }
        Budget measured = planned.method().of(made).result().apply(setUp.conditions);
        EntryConvention convention = planned.entry().convention();
        BigDecimal before = planned.entry().before();
        return new Outcome(
                convention.change(before, measured).entry().combined(),
                convention
                        .unrounded(before, new Budget(touched.truth(), List.of()))
                        .value());
    }

    private PlannedOffset planned() {
        try {
            return PlanFile.parse(plan, Plans.text(plan)).offsets().stream()
                    .filter(planned -> planned.name().equals(offset))
                    .findFirst()
                    .orElseThrow();
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }
}

package sweepbook.cli.plan;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.io.IOException;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;
import sweepbook.simulator.job.JoineryScenario;
import sweepbook.simulator.job.SoughtOffset;
import sweepbook.simulator.job.VirtualJob;

/** The bundled plan and the simulated machine belong together. */
class JoineryPlanTest {
    private static final Map<String, Double> RADIUS_MM = Map.of(
            JoineryScenario.SPINDLE_PIN,
            JoineryScenario.SPINDLE_PIN_MM,
            JoineryScenario.DRILL_PIN,
            JoineryScenario.DRILL_PIN_MM,
            JoineryScenario.SPINDLE_NOSE,
            0.0,
            JoineryScenario.DRILL_NOSE,
            0.0);

    private final VirtualJob job = JoineryScenario.of(1);

    @Test
    void thePlanMeasuresWhatTheSimulatorMakes() throws IOException {
        List<PlannedOffset> planned =
                PlanFile.parse("joinery-head", Plans.text("joinery-head")).offsets();
        assertEquals(
                job.offsets().stream().map(SoughtOffset::name).toList(),
                planned.stream().map(PlannedOffset::name).toList());
        for (PlannedOffset offset : planned) {
            SoughtOffset sought = job.offset(offset.name());
            assertEquals(sought.axis().name(), offset.axis().name(), offset.name());
            assertEquals(sought.direction(), offset.direction().sign(), offset.name());
            assertEquals(sought.entryBefore_mm(), offset.entry().before().doubleValue(), offset.name());
            for (int i = 0; i < offset.touches().size(); i++) {
                var feature = offset.touches().get(i).feature();
                assertEquals(sought.touches().get(i).feature(), feature.name(), offset.name());
                assertEquals(RADIUS_MM.get(feature.name()), feature.radius().value(), feature.name());
            }
        }
    }
}

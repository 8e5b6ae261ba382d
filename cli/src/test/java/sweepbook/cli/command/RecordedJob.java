package sweepbook.cli.command;

import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import sweepbook.acquisition.trace.LengthUnit;
import sweepbook.acquisition.trace.Trace;
import sweepbook.acquisition.trace.TraceCsvWriter;
import sweepbook.cli.plan.PlanFile;
import sweepbook.cli.plan.PlannedOffset;
import sweepbook.cli.plan.Plans;
import sweepbook.cli.plan.TouchSeries;
import sweepbook.simulator.job.JoineryScenario;
import sweepbook.simulator.job.SoughtOffset;
import sweepbook.simulator.job.VirtualJob;
import sweepbook.simulator.job.VirtualTouch;

/** A whole job of the virtual technician as files: what the indicator sent, and what was typed. */
final class RecordedJob {
    static final String PLAN = "joinery-head";

    private RecordedJob() {}

    /** What the person types, known beforehand because the same seed makes the same job. */
    static List<String> positions(long seed) throws IOException {
        List<String> lines = new ArrayList<>();
        VirtualJob job = JoineryScenario.of(seed);
        for (PlannedOffset offset : planned()) {
            for (int touch = 0; touch < offset.touches().size(); touch++) {
                lines.addAll(typed(job.touch(offset.name(), touch)));
            }
        }
        return lines;
    }

    /** What the person types at one touch. */
    static List<String> typed(VirtualTouch made) throws IOException {
        PlannedOffset offset = planned().stream()
                .filter(planned -> planned.name().equals(made.offset()))
                .findFirst()
                .orElseThrow();
        return offset.positions() == TouchSeries.Positions.ON_CREST_AND_AT_THE_END
                ? List.of(made.onCrest(), made.atTheEnd())
                : List.of(made.atTheEnd());
    }

    private static List<PlannedOffset> planned() throws IOException {
        return PlanFile.parse(PLAN, Plans.text(PLAN)).offsets();
    }

    /** The readings of all touches, in a trace file. */
    static Path trace(Path folder, long seed) throws IOException {
        VirtualJob job = JoineryScenario.of(seed);
        Trace.Builder whole = new Trace.Builder(LengthUnit.MM, 0.001);
        for (SoughtOffset offset : job.offsets()) {
            for (int touch = 0; touch < offset.touches().size(); touch++) {
                Trace trace = job.touch(offset.name(), touch).trace();
                for (int i = 0; i < trace.size(); i++) {
                    whole.add(trace.reading(i));
                }
            }
        }
        Path file = folder.resolve("job.csv");
        TraceCsvWriter.write(file, whole.build());
        return file;
    }
}

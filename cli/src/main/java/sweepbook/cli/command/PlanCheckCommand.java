package sweepbook.cli.command;

import java.io.IOException;
import java.io.PrintWriter;
import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;
import sweepbook.cli.plan.Plan;
import sweepbook.cli.plan.PlanFile;
import sweepbook.cli.plan.PlannedOffset;
import sweepbook.cli.plan.Plans;

/** Reads a plan as a measurement would, and says what it would measure. */
@Command(name = "check", description = "Check a plan, and say what it would measure.")
final class PlanCheckCommand implements Callable<Integer> {
    @Spec
    private CommandSpec spec;

    @Parameters(paramLabel = "PLAN", description = "A plan file, or the name of a bundled plan.")
    private String name;

    @Override
    public Integer call() throws IOException {
        PrintWriter out = spec.commandLine().getOut();
        Plan plan = PlanFile.parse(name, Plans.text(name));
        out.println(name + ": a plan of " + plan.offsets().size()
                + (plan.offsets().size() == 1 ? " offset" : " offsets") + " on "
                + plan.machine().name() + " (" + plan.machine().serial() + ")");
        for (PlannedOffset offset : plan.offsets()) {
            out.println("  " + offset.name() + ": " + offset.method().inWords() + " along " + offset.axis() + ", "
                    + offset.touches().size() + " touches; entry '"
                    + offset.entry().label() + "' stands at " + offset.entry().before() + " "
                    + offset.entry().convention().unit().symbol());
        }
        out.flush();
        return ExitStatus.DONE;
    }
}

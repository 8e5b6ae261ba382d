package sweepbook.cli.command;

import java.io.IOException;
import java.io.PrintWriter;
import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Spec;
import sweepbook.cli.plan.Plan;
import sweepbook.cli.plan.PlanFile;
import sweepbook.cli.plan.Plans;

/** Names the plans that come with the program. */
@Command(name = "list", description = "Name the plans that come with the program.")
final class PlanListCommand implements Callable<Integer> {
    @Spec
    private CommandSpec spec;

    @Override
    public Integer call() throws IOException {
        PrintWriter out = spec.commandLine().getOut();
        for (String name : Plans.BUNDLED) {
            Plan plan = PlanFile.parse(name, Plans.text(name));
            int touches = plan.offsets().stream()
                    .filter(offset -> offset.hasOwnTouches())
                    .mapToInt(offset -> offset.touches().size())
                    .sum();
            out.printf("%-26s %s, %d touches%n", name, plan.plan(), touches);
        }
        out.flush();
        return ExitStatus.DONE;
    }
}

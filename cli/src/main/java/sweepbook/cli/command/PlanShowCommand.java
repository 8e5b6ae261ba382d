package sweepbook.cli.command;

import java.io.IOException;
import java.io.PrintWriter;
import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;
import sweepbook.cli.plan.Plans;

/** Prints a plan, to be copied into a file and changed there. */
@Command(name = "show", description = "Print a plan, to copy it into a file of yours and change it there.")
final class PlanShowCommand implements Callable<Integer> {
    @Spec
    private CommandSpec spec;

    @Parameters(paramLabel = "PLAN", description = "The name of a bundled plan, or a plan file.")
    private String name;

    @Override
    public Integer call() throws IOException {
        PrintWriter out = spec.commandLine().getOut();
        out.print(Plans.text(name));
        out.flush();
        return ExitStatus.DONE;
    }
}

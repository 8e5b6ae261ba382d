package sweepbook.cli.command;

import java.util.List;
import java.util.concurrent.Callable;
import picocli.CommandLine;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;

/** What {@code --help} behind a command says, for whoever types help in front of it. */
@Command(name = "help", description = "Show the help of a command.")
final class HelpCommand implements Callable<Integer> {
    @Spec
    private CommandSpec spec;

    @Parameters(arity = "0..*", paramLabel = "COMMAND", description = "As typed; none is sweepbook itself.")
    private List<String> words = List.of();

    @Override
    public Integer call() throws UserFault {
        CommandLine asked = spec.parent().commandLine();
        for (String word : words) {
            CommandLine next = asked.getSubcommands().get(word);
            if (next == null) {
                throw UserFault.wrongUse("'" + word + "' is no command; 'sweepbook --help' names them");
            }
            asked = next;
        }
        asked.usage(spec.commandLine().getOut());
        return ExitStatus.DONE;
    }
}

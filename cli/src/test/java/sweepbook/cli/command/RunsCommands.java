package sweepbook.cli.command;

import java.io.PrintWriter;
import java.io.StringWriter;
import java.util.stream.Stream;
import picocli.CommandLine;

/** Runs commands as the program does, and keeps what they print. */
abstract class RunsCommands {
    final StringWriter out = new StringWriter();
    final StringWriter err = new StringWriter();

    /** The exit status. */
    final int execute(String... args) {
        CommandLine commandLine = Sweepbook.commandLine();
        commandLine.setOut(new PrintWriter(out, true));
        commandLine.setErr(new PrintWriter(err, true));
        return commandLine.execute(args);
    }

    /** The same where some arguments are files. */
    final int run(String command, Object... arguments) {
        return execute(Stream.concat(Stream.of(command), Stream.of(arguments).map(Object::toString))
                .toArray(String[]::new));
    }
}

package sweepbook.cli.command;

import java.io.IOException;
import java.io.PrintWriter;
import java.io.StringWriter;
import java.nio.file.AccessDeniedException;
import java.nio.file.FileAlreadyExistsException;
import java.nio.file.Files;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.util.List;
import java.util.Locale;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import picocli.CommandLine;
import picocli.CommandLine.ParameterException;
import picocli.CommandLine.ParseResult;
import picocli.CommandLine.UnmatchedArgumentException;
import sweepbook.acquisition.link.LinkException;

/** Maps every way a command can fail to one line on stderr and an exit status; nobody's mistake shows a stack trace. */
final class Faults {
    private static final Pattern CHOICES =
            Pattern.compile("expected one of \\[(.*)] \\(case-insensitive\\) but was '(.*)'$");

    private Faults() {}

    static int wrongUse(ParameterException e, String[] args) {
        CommandLine command = e.getCommandLine();
        complain(command, line(e) + " (see '" + command.getCommandSpec().qualifiedName() + " --help')");
        return ExitStatus.WRONG_USE;
    }

    /** The library speaks to programmers now and then. */
    private static String line(ParameterException e) {
        if (e instanceof UnmatchedArgumentException unmatched) {
            List<String> near = unmatched.getSuggestions();
            return "'" + unmatched.getUnmatched().get(0) + "' is not known here"
                    + (near.isEmpty() ? "" : "; did you mean " + String.join(" or ", near) + "?");
        }
        return CHOICES.matcher(e.getMessage())
                .replaceFirst(choices -> "'" + choices.group(2) + "' is none of " + asWritten(choices.group(1)))
                .replaceFirst("^Error: ", "")
                .replaceFirst("^Missing required subcommand$", "no command is named")
                .replaceFirst(" option option ", " option ")
                .replaceFirst("is not an? (long|int)$", "is not a whole number")
                .replaceFirst("is not a double$", "is not a number");
    }

    /** Constants as a person writes them, each once. */
    private static String asWritten(String constants) {
        return Stream.of(constants.split(", "))
                .map(constant -> constant.toLowerCase(Locale.ROOT).replace('_', '-'))
                .distinct()
                .collect(Collectors.joining(", "));
    }

    static int handle(Exception e, CommandLine command, ParseResult parsed) {
        int status = exitStatus(e);
        complain(command, status == ExitStatus.OUR_FAULT ? ourFault(e) : line(e));
        return status;
    }

    static int exitStatus(Throwable e) {
        if (e instanceof UserFault fault) {
            return fault.exitStatus();
        }
        if (e instanceof LinkException link && link.isLost()) {
            return ExitStatus.LINK_LOST;
        }
        return e instanceof IOException ? ExitStatus.WRONG_USE : ExitStatus.OUR_FAULT;
    }

    /** The JDK's file exceptions carry nothing but the path; say what it is about. */
    private static String line(Exception e) {
        if (e instanceof NoSuchFileException) {
            return e.getMessage() + ": no such file; check the name";
        }
        if (e instanceof AccessDeniedException) {
            return e.getMessage() + ": permission denied; check who may read and write it";
        }
        if (e instanceof FileAlreadyExistsException) {
            return e.getMessage() + ": is there already; choose another name";
        }
        return e.getMessage();
    }

    /** Memory that ran out, and the like. */
    static int ourFault(Error e, CommandLine command) {
        complain(command, ourFault(e));
        return ExitStatus.OUR_FAULT;
    }

    private static String ourFault(Throwable e) {
        StringWriter trace = new StringWriter();
        e.printStackTrace(new PrintWriter(trace, true));
        String where;
        try {
            Path log = Files.createTempFile("sweepbook-fault-", ".log");
            Files.writeString(log, trace.toString());
            where = "the log is " + log;
        } catch (IOException unwritable) {
            where = "no log could be written (" + unwritable.getMessage() + ")";
        }
        return "a fault of sweepbook itself: " + e + "; " + where + "; everything captured before it is on disk";
    }

    /** What is quoted of a file may hold anything, but must not steer the terminal. */
    private static void complain(CommandLine command, String line) {
        command.getErr()
                .println("sweepbook: " + line.replaceAll("\\s*\\R\\s*", " ").replaceAll("\\p{Cntrl}", "?"));
    }
}

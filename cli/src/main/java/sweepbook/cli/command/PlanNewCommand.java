package sweepbook.cli.command;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStreamReader;
import java.io.PrintWriter;
import java.io.StringReader;
import java.nio.charset.StandardCharsets;
import java.nio.file.FileAlreadyExistsException;
import java.nio.file.Files;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.util.Optional;
import java.util.concurrent.Callable;
import org.jline.reader.EndOfFileException;
import org.jline.reader.LineReader;
import org.jline.reader.LineReaderBuilder;
import org.jline.reader.UserInterruptException;
import org.jline.terminal.Terminal;
import org.jline.terminal.TerminalBuilder;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;
import sweepbook.cli.live.Wrapping;
import sweepbook.cli.plan.Interview;
import sweepbook.cli.plan.PlanFile;
import sweepbook.cli.plan.PlanInterview;
import sweepbook.cli.plan.TextFile;

/** Asks for machine, indicator and what is to be measured, and writes the plan; nothing is written before the last answer. */
@Command(
        name = "new",
        description = "Write a plan: asks for your machine, your indicator and what is to be measured."
                + " Ctrl-C leaves at any time, and nothing is written.")
final class PlanNewCommand implements Callable<Integer> {
    @Spec
    private CommandSpec spec;

    @Parameters(paramLabel = "FILE.json", description = "The plan to write; it must not be there yet.")
    private Path file;

    @Option(names = "--answers", paramLabel = "FILE", description = "Take the answers from a file, one a line.")
    private Optional<Path> answers;

    @Override
    public Integer call() throws IOException, UserFault {
        if (Files.exists(file)) {
            throw UserFault.wrongUse(file + ": is there already; choose another name");
        }
        String text = asked();
        PlanFile.parse(file.toString(), text);
        try {
            Files.writeString(file, text, StandardOpenOption.CREATE_NEW);
        } catch (FileAlreadyExistsException e) {
            throw UserFault.wrongUse(file + ": is there already; choose another name");
        } catch (NoSuchFileException e) {
            throw UserFault.wrongUse(file + ": its folder does not exist; make the folder first");
        }
        PrintWriter out = spec.commandLine().getOut();
        out.println(file);
        out.flush();
        PrintWriter err = spec.commandLine().getErr();
        err.println("Read it through, change its words to yours, then: sweepbook plan check " + file);
        err.flush();
        return ExitStatus.DONE;
    }

    private String asked() throws IOException {
        if (answers.isPresent()) {
            String lines = TextFile.read(answers.get(), "a file with an answer on each line");
            return new PlanInterview(new Piped(new BufferedReader(new StringReader(lines)))).text();
        }
        try (Terminal terminal =
                TerminalBuilder.builder().system(true).dumb(true).build()) {
            if (!terminal.getType().startsWith(Terminal.TYPE_DUMB)) {
                return new PlanInterview(new Typed(terminal)).text();
            }
        }
        return new PlanInterview(
                        new Piped(new BufferedReader(new InputStreamReader(System.in, StandardCharsets.UTF_8))))
                .text();
    }

    /** Answers from lines that were written before. */
    private final class Piped implements Interview.Answers {
        private final BufferedReader lines;

        Piped(BufferedReader lines) {
            this.lines = lines;
        }

        @Override
        public Optional<String> to(String question) throws IOException {
            tell(question);
            return Optional.ofNullable(lines.readLine());
        }

        @Override
        public void tell(String line) {
            spec.commandLine().getErr().println(line);
            spec.commandLine().getErr().flush();
        }
    }

    /** Answers that a person types. */
    private static final class Typed implements Interview.Answers {
        private final LineReader reader;

        Typed(Terminal terminal) {
            this.reader = LineReaderBuilder.builder().terminal(terminal).build();
        }

        @Override
        public Optional<String> to(String question) {
            tell(question);
            try {
                return Optional.of(reader.readLine("> "));
            } catch (UserInterruptException | EndOfFileException e) {
                return Optional.empty();
            }
        }

        @Override
        public void tell(String line) {
            Wrapping.wrap(line, reader.getTerminal().getWidth()).forEach(reader::printAbove);
        }
    }
}

package sweepbook.cli.command;

import java.io.IOException;
import java.io.PrintWriter;
import java.nio.file.Path;
import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;
import sweepbook.acquisition.journal.JournalCheck;
import sweepbook.acquisition.journal.JournalException;

/** Says whether a book is as it was written. */
@Command(name = "check", description = "Check that no line of a book was altered, removed or swapped.")
final class CheckCommand implements Callable<Integer> {
    @Spec
    private CommandSpec spec;

    @Parameters(paramLabel = "BOOK", description = "The book.")
    private Path book;

    @Override
    public Integer call() throws IOException {
        PrintWriter out = spec.commandLine().getOut();
        JournalCheck check;
        try {
            check = JournalCheck.of(book);
        } catch (JournalException e) {
            if (e.brokenLine().isEmpty()) {
                throw e;
            }
            out.println(e.getMessage());
            return ExitStatus.NOT_DETERMINED;
        }
        out.println(book + ": whole, " + check.lines() + " lines, the last with hash " + check.hash());
        if (check.tornBytes() > 0) {
            out.println("Behind it stand " + check.tornBytes()
                    + " bytes of a line that a crash tore; it was never acknowledged, and the next session sets it"
                    + " aside.");
        }
        if (!check.endKnown()) {
            out.println("The file " + book + ".tip is not beside it, so nothing here can vouch that no last lines were"
                    + " taken away: compare the hash with the one noted elsewhere.");
        }
        return ExitStatus.DONE;
    }
}

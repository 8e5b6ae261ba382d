package sweepbook.cli.command;

import java.io.IOException;
import java.io.PrintWriter;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;
import sweepbook.acquisition.journal.JournalCheck;
import sweepbook.cli.book.BookFile;
import sweepbook.cli.book.History;
import sweepbook.cli.report.HistoryReport;
import sweepbook.cli.report.PageFile;

/** Says how the offsets of one machine moved from book to book. */
@Command(name = "history", description = "Say how the offsets of one machine moved from book to book.")
final class HistoryCommand implements Callable<Integer> {
    private static final String ROW = "  %-24s %-28s %-28s %s%n";

    @Spec
    private CommandSpec spec;

    @Option(names = "--out", paramLabel = "FILE", description = "Also write a page with a picture for each offset.")
    private Optional<Path> out;

    @Parameters(arity = "1..*", paramLabel = "BOOK", description = "Books of one machine, in any order.")
    private List<Path> files;

    @Override
    public Integer call() throws IOException, UserFault {
        List<History.Source> books = new ArrayList<>();
        for (Path file : files) {
            books.add(new History.Source(
                    file.toString(), BookFile.read(file), JournalCheck.of(file).hash()));
        }
        History history;
        try {
            history = History.of(books);
        } catch (IllegalArgumentException e) {
            throw UserFault.wrongUse(e.getMessage());
        }
        if (out.isPresent()) {
            PageFile.write(out.get(), HistoryReport.html(history));
        }
        PrintWriter results = spec.commandLine().getOut();
        history.series().forEach(series -> print(results, series));
        out.ifPresent(results::println);
        results.flush();
        return history.series().stream().allMatch(series -> series.missing().isEmpty())
                ? ExitStatus.DONE
                : ExitStatus.NOT_DETERMINED;
    }

    private static void print(PrintWriter to, History.Series series) {
        to.println(series.title() + " (" + series.offset() + ")");
        to.printf(ROW, "measured on", "value", "moved since", "book");
        for (int i = 0; i < series.points().size(); i++) {
            to.printf(
                    ROW,
                    HistoryReport.time(series, i),
                    HistoryReport.value(series, i),
                    HistoryReport.movedSince(series, i),
                    series.points().get(i).book());
        }
        series.missing().forEach(missing -> to.println("  not determined: " + missing));
    }
}

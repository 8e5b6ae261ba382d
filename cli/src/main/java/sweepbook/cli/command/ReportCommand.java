package sweepbook.cli.command;

import java.io.IOException;
import java.io.InputStream;
import java.io.PrintWriter;
import java.nio.file.Files;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;
import sweepbook.acquisition.journal.JournalCheck;
import sweepbook.acquisition.trace.Trace;
import sweepbook.acquisition.trace.TraceCsv;
import sweepbook.analysis.sweep.SweepFindings;
import sweepbook.analysis.sweep.SweepReader;
import sweepbook.analysis.sweep.SweepSettings;
import sweepbook.cli.book.Book;
import sweepbook.cli.book.BookFile;
import sweepbook.cli.book.OffsetResult;
import sweepbook.cli.book.Offsets;
import sweepbook.cli.report.BookReport;
import sweepbook.cli.report.PageFile;
import sweepbook.cli.report.TraceFile;
import sweepbook.cli.report.TraceReport;

/** Writes a book, or a single trace, as a page to look at. */
@Command(name = "report", description = "Write a book, or a trace file, as one HTML page.")
final class ReportCommand implements Callable<Integer> {
    @Spec
    private CommandSpec spec;

    @Option(
            names = "--out",
            paramLabel = "FILE",
            description = "Where the page goes (default: beside the book, its name ending in .html).")
    private Optional<Path> out;

    @Parameters(paramLabel = "BOOK", description = "The book, or a trace file (CSV).")
    private Path file;

    @Override
    public Integer call() throws IOException, UserFault {
        Path page = out.orElseGet(() -> beside(file));
        if (Files.exists(page) && Files.isSameFile(page, file)) {
            throw UserFault.wrongUse(page + ": is what is to be reported; name another file with --out");
        }
        boolean determined = isBook() ? write(file, page) : traceTo(page);
        PrintWriter results = spec.commandLine().getOut();
        results.println(page);
        results.flush();
        return determined ? ExitStatus.DONE : ExitStatus.NOT_DETERMINED;
    }

    /** The page beside a book or trace. */
    static Path beside(Path file) {
        String name = file.getFileName().toString();
        int dot = name.lastIndexOf('.');
        return file.resolveSibling((dot > 0 ? name.substring(0, dot) : name) + ".html");
    }

    /** Lines of a book begin with a brace, those of a trace never do. */
    private boolean isBook() throws IOException {
        if (Files.isDirectory(file)) {
            throw new IOException(file + ": is a directory; name a book or a trace file");
        }
        try (InputStream in = Files.newInputStream(file)) {
            int first = in.read();
            return first == '{' || first < 0;
        } catch (NoSuchFileException e) {
            throw new IOException(file + ": no such book or trace file; check the name", e);
        }
    }

    /** Writes the report of a book; says whether every offset is determined. */
    static boolean write(Path bookFile, Path page) throws IOException {
        Book book = BookFile.read(bookFile);
        List<OffsetResult> results = new Offsets(book).all();
        PageFile.write(
                page, BookReport.html(book, results, JournalCheck.of(bookFile).hash()));
        return results.stream().allMatch(result -> result.result().isFound());
    }

    private boolean traceTo(Path page) throws IOException {
        Trace trace = TraceCsv.read(file);
        SweepFindings findings = SweepReader.read(trace, new SweepSettings(Optional.empty(), trace.resolution_mm()));
        PageFile.write(page, TraceReport.html(TraceFile.of(file, trace), trace, findings));
        return findings.highSpot().isFound();
    }
}

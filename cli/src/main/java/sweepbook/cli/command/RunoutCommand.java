package sweepbook.cli.command;

import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.io.PrintWriter;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.Callable;
import java.util.stream.Stream;
import picocli.CommandLine.ArgGroup;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;
import sweepbook.acquisition.trace.LengthUnit;
import sweepbook.acquisition.trace.Trace;
import sweepbook.acquisition.trace.TraceCsv;
import sweepbook.analysis.runout.Runout;
import sweepbook.analysis.runout.RunoutReader;
import sweepbook.analysis.runout.RunoutSettings;
import sweepbook.analysis.runout.shaft.ShaftAxis;
import sweepbook.analysis.uncertainty.Decision;
import sweepbook.analysis.uncertainty.Estimate;
import sweepbook.analysis.uncertainty.Finding;
import sweepbook.analysis.uncertainty.GuardBand;
import sweepbook.analysis.uncertainty.Tolerance;
import sweepbook.cli.plan.Plan;
import sweepbook.cli.report.PageFile;
import sweepbook.cli.report.RunoutReport;
import sweepbook.cli.report.Surface;
import sweepbook.cli.report.TraceFile;

/** Says what the traces of turned parts hold: full indicator movement, eccentricity, harmonics, roundness. */
@Command(
        name = "runout",
        abbreviateSynopsis = true,
        description = "Find runout, eccentricity and roundness in traces of turned parts.",
        footer = "Let no blade or cutter turn under power while the indicator rides on it.")
final class RunoutCommand implements Callable<Integer> {
    private static final ObjectMapper JSON = new ObjectMapper();

    @Spec
    private CommandSpec spec;

    /** How the results are printed. */
    static final class Form {
        @Option(names = "--json", description = "Print one JSON object a line, in the order of the files.")
        private boolean json;

        @Option(names = "--csv", description = "Print a CSV table, a line for each file.")
        private boolean csv;
    }

    @ArgGroup
    private Form form = new Form();

    @Mixin
    private RunoutOptions options;

    @Option(
            names = "--along",
            split = ",",
            paramLabel = "MM",
            description = "Places of the traces along a shaft, in millimetres: adds lean and bend of its axis.")
    private List<Double> along_mm = List.of();

    /** How part and spindle are told apart. */
    static final class Separation {
        @Option(
                names = "--reversal",
                description = "The two traces are before and after part and indicator were both turned by 180 degrees"
                        + " on the spindle; angles count from the part's mark.")
        private boolean reversal;

        @Option(
                names = "--steps",
                description =
                        "Before each of the N traces the part was turned on the spindle by 360/N degrees on, in the"
                                + " direction of turning; angles count from the spindle's mark.")
        private boolean steps;
    }

    @ArgGroup
    private Separation separation = new Separation();

    @Option(names = "--report", paramLabel = "FILE.html", description = "Write a page with pictures as well.")
    private Optional<Path> report;

    @ArgGroup(exclusive = false)
    private RunoutLink link = new RunoutLink();

    @Parameters(
            arity = "1..*",
            paramLabel = "FILE",
            description = "Trace files (CSV), folders of them, or one link (serial:PORT, tcp:HOST:PORT, replay:FILE,"
                    + " console:) that is recorded first.")
    private List<String> sources;

    @Override
    public Integer call() throws IOException, UserFault {
        if (RunoutLink.isLink(sources.get(0))) {
            int status = link.record(sources, spec.commandLine().getErr());
            if (status != ExitStatus.DONE) {
                return status;
            }
        }
        Optional<Plan> plan = options.plan();
        Surface surface = options.surface();
        List<RunoutReport.Entry> entries = new ArrayList<>();
        RunoutSettings settings = null;
        PrintWriter out = spec.commandLine().getOut();
        if (form.csv) {
            RunoutCsv.head(out);
        }
        for (Path file : files()) {
            Trace trace = TraceCsv.read(file);
            settings = options.settings(trace.unit(), plan);
            if (!entries.isEmpty()) {
                options.checkSameUnit(file, trace.unit(), entries.get(0).unit());
            }
            RunoutReport.Entry entry = read(file, trace, settings);
            entries.add(entry);
            if (form.csv) {
                RunoutCsv.row(out, entry, settings, surface);
            } else if (form.json) {
                out.println(JSON.writeValueAsString(RunoutText.json(entry, settings, surface)));
            }
        }
        if (!form.csv && !form.json && entries.size() == 1) {
            RunoutText.table(out, entries.get(0), settings, surface);
        } else if (!form.csv && !form.json) {
            RunoutTable.print(out, entries, settings, surface);
        }
        Finding<ShaftAxis> axis = along_mm.isEmpty()
                ? Finding.notDetermined("no places along a shaft were named")
                : RunoutTogether.axis(runouts(entries), along_mm);
        List<String> together = together(entries, axis);
        together.forEach((form.json || form.csv ? spec.commandLine().getErr() : out)::println);
        if (report.isPresent()) {
            PageFile.write(
                    report.get(),
                    RunoutReport.html(
                            entries, settings, surface, plan.map(Plan::indicator), together, axis.asOptional()));
        }
        out.flush();
        return entries.stream().allMatch(e -> e.runout().isFound()) ? ExitStatus.DONE : ExitStatus.NOT_DETERMINED;
    }

    private RunoutReport.Entry read(Path file, Trace trace, RunoutSettings settings) throws IOException, UserFault {
        Finding<Runout> runout = RunoutReader.read(trace, settings);
        Optional<Tolerance> tolerance = options.tolerance(trace.unit());
        Optional<String> decision = tolerance.isEmpty()
                ? Optional.empty()
                : runout.asOptional().map(r -> decision(r.fim(), tolerance.get(), trace.unit()));
        return new RunoutReport.Entry(TraceFile.of(file, trace), trace.unit(), runout, decision);
    }

    /** What the traces say of one part, as asked for, or of a series of parts. */
    private List<String> together(List<RunoutReport.Entry> entries, Finding<ShaftAxis> axis) throws UserFault {
        LengthUnit unit = entries.get(0).unit();
        List<String> words = new ArrayList<>();
        Optional<String> copy = RunoutTogether.copy(entries);
        if (along_mm.isEmpty() && !separation.reversal && !separation.steps) {
            copy.ifPresent(which -> words.add(which + ": one part counts twice"));
            words.addAll(RunoutSeries.words(entries, options.tolerance(unit)));
            return words;
        }
        if (copy.isPresent()) {
            // A copy in the place of another run would show a spindle without any error.
            throw UserFault.wrongUse(copy.get() + ": name a trace of its own for each run");
        }
        if (!along_mm.isEmpty()) {
            words.addAll(RunoutTogether.alongAShaft(axis, unit));
        }
        if (separation.reversal) {
            words.addAll(RunoutTogether.reversal(runouts(entries), unit));
        }
        if (separation.steps) {
            words.addAll(RunoutTogether.steps(runouts(entries), unit));
        }
        return words;
    }

    private static List<Runout> runouts(List<RunoutReport.Entry> entries) {
        return entries.stream().flatMap(e -> e.runout().asOptional().stream()).toList();
    }

    private List<Path> files() throws IOException, UserFault {
        List<Path> files = new ArrayList<>();
        if (RunoutLink.isLink(sources.get(0))) {
            return List.of(link.recorded());
        }
        for (String source : sources) {
            Path path = Path.of(source);
            if (!Files.isDirectory(path)) {
                files.add(path);
                continue;
            }
            try (Stream<Path> inside = Files.list(path)) {
                List<Path> traces = inside.filter(
                                p -> p.getFileName().toString().endsWith(".csv"))
                        .sorted()
                        .toList();
                if (traces.isEmpty()) {
                    throw UserFault.wrongUse(path + ": no trace (*.csv) in this folder");
                }
                files.addAll(traces);
            }
        }
        return files;
    }

    private static String decision(Estimate fim, Tolerance tolerance, LengthUnit unit) {
        Decision decision = Decision.of(fim, tolerance, GuardBand.ONE_SIDED_95);
        return decision.verdict().words() + " (" + RunoutText.limits(tolerance, unit) + "; "
                + decision.rule().label() + ")";
    }
}

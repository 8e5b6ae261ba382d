package sweepbook.cli.command;

import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.io.IOException;
import java.io.PrintWriter;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.concurrent.Callable;
import java.util.stream.Stream;
import picocli.CommandLine;
import picocli.CommandLine.ArgGroup;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.ParameterException;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;
import sweepbook.acquisition.trace.LengthUnit;
import sweepbook.acquisition.trace.Trace;
import sweepbook.acquisition.trace.TraceCsv;
import sweepbook.analysis.runout.Runout;
import sweepbook.analysis.runout.RunoutReader;
import sweepbook.analysis.runout.RunoutSettings;
import sweepbook.analysis.runout.circle.ReferenceCircle;
import sweepbook.analysis.runout.shaft.ShaftAxis;
import sweepbook.analysis.uncertainty.Decision;
import sweepbook.analysis.uncertainty.Estimate;
import sweepbook.analysis.uncertainty.Finding;
import sweepbook.analysis.uncertainty.GuardBand;
import sweepbook.analysis.uncertainty.Tolerance;
import sweepbook.cli.report.PageFile;
import sweepbook.cli.report.RunoutReport;

/** Says what the traces of turned parts hold: full indicator movement, eccentricity, harmonics, roundness. */
@Command(
        name = "runout",
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

    @Option(
            names = "--marks-per-turn",
            paramLabel = "N",
            defaultValue = "1",
            description = "Witness marks on one turn, equally spaced (default: ${DEFAULT-VALUE}).")
    private int marksPerTurn;

    @Option(
            names = "--order",
            paramLabel = "N",
            defaultValue = "50",
            description = "Highest undulations per revolution looked at (default: ${DEFAULT-VALUE}).")
    private int order;

    @Option(
            names = "--cutoff",
            paramLabel = "UPR",
            defaultValue = "50",
            description = "Undulations per revolution of which the roundness filter passes half"
                    + " (Gaussian; default: ${DEFAULT-VALUE}).")
    private double cutoff_upr;

    @Option(
            names = "--circle",
            paramLabel = "LSCI|MZCI|MCCI|MICI",
            defaultValue = "LSCI",
            description = "Reference circle of the out-of-roundness: least squares, minimum zone,"
                    + " minimum circumscribed, maximum inscribed (default: ${DEFAULT-VALUE}).")
    private String circle;

    @Option(
            names = "--fim-limit",
            paramLabel = "LENGTH",
            description = "Most full indicator movement that is allowed, in the unit of the traces: adds the decision"
                    + " (ISO 14253-1) and, for several files, the capability.")
    private Optional<Double> limit;

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
                description = "Before each of the N traces the part was turned on by 360/N degrees on the spindle;"
                        + " angles count from the spindle's mark.")
        private boolean steps;
    }

    @ArgGroup
    private Separation separation = new Separation();

    @Option(names = "--report", paramLabel = "FILE.html", description = "Write a page with pictures as well.")
    private Optional<Path> report;

    @Option(names = "--profile", paramLabel = "PROFILE", description = "For a link: what its bytes mean.")
    private Optional<String> profile;

    @Option(names = "--out", paramLabel = "FILE.csv", description = "For a link: the trace file that is recorded.")
    private Optional<Path> recorded;

    @Option(names = "--seconds", paramLabel = "S", description = "For a link: end after so many seconds.")
    private Optional<String> seconds;

    @Parameters(
            arity = "1..*",
            paramLabel = "FILE",
            description = "Trace files (CSV), folders of them, or one link (serial:PORT, tcp:HOST:PORT, replay:FILE,"
                    + " console:) that is recorded first.")
    private List<String> sources;

    @Override
    public Integer call() throws IOException, UserFault {
        RunoutSettings settings = settings();
        if (isLink(sources.get(0))) {
            int status = record();
            if (status != ExitStatus.DONE) {
                return status;
            }
        }
        PrintWriter out = spec.commandLine().getOut();
        List<RunoutReport.Entry> entries = new ArrayList<>();
        RunoutSeries series = new RunoutSeries();
        boolean allFound = true;
        if (form.csv) {
            RunoutCsv.head(out);
        }
        for (Path file : files()) {
            Trace trace = TraceCsv.read(file);
            if (limit.isPresent() && !entries.isEmpty() && entries.get(0).unit() != trace.unit()) {
                throw UserFault.wrongUse(file + ": its unit is not that of the files before it, so that --fim-limit "
                        + limit.get() + " would mean two things; look at one unit at a time");
            }
            Finding<Runout> runout = RunoutReader.read(trace, settings);
            Optional<String> decision = runout.asOptional().flatMap(r -> decision(r.fim(), trace.unit()));
            allFound &= runout.isFound();
            runout.asOptional()
                    .ifPresent(r -> series.add(file.toString(), r.fim().value()));
            entries.add(new RunoutReport.Entry(file.getFileName().toString(), trace.unit(), runout, decision));
            if (form.csv) {
                RunoutCsv.row(out, file.toString(), trace.unit(), runout, settings, decision);
            } else if (form.json) {
                ObjectNode object = RunoutText.json(file, trace.unit(), runout, settings);
                decision.ifPresent(words -> object.put("decision", words));
                out.println(JSON.writeValueAsString(object));
            } else {
                RunoutText.table(out, file, trace.unit(), runout, settings, decision);
            }
        }
        LengthUnit unit = entries.get(0).unit();
        OptionalDouble limit_mm =
                limit.map(l -> OptionalDouble.of(unit.toMm(l))).orElse(OptionalDouble.empty());
        List<String> together = new ArrayList<>(series.words(unit, limit_mm));
        Finding<ShaftAxis> axis = along_mm.isEmpty()
                ? Finding.notDetermined("no places along a shaft were named")
                : RunoutTogether.axis(runouts(entries), along_mm);
        if (!along_mm.isEmpty()) {
            together.addAll(RunoutTogether.alongAShaft(axis, unit));
        }
        together.addAll(apart(runouts(entries), unit));
        together.forEach((form.json || form.csv ? spec.commandLine().getErr() : out)::println);
        if (report.isPresent()) {
            PageFile.write(report.get(), RunoutReport.html(entries, settings, together, axis.asOptional()));
        }
        out.flush();
        return allFound ? ExitStatus.DONE : ExitStatus.NOT_DETERMINED;
    }

    private static List<Runout> runouts(List<RunoutReport.Entry> entries) {
        return entries.stream().flatMap(e -> e.runout().asOptional().stream()).toList();
    }

    /** Part and spindle apart, as asked for. */
    private List<String> apart(List<Runout> runouts, LengthUnit unit) throws UserFault {
        List<String> words = new ArrayList<>();
        if (separation.reversal) {
            words.addAll(RunoutTogether.reversal(runouts, unit));
        }
        if (separation.steps) {
            words.addAll(RunoutTogether.steps(runouts, unit));
        }
        return words;
    }

    private static boolean isLink(String source) {
        return Stream.of("serial:", "tcp:", "replay:", "console:").anyMatch(source::startsWith);
    }

    /** Records the link by the trace command; its summary is no result of this one. */
    private int record() throws UserFault {
        if (sources.size() > 1 || recorded.isEmpty()) {
            throw UserFault.wrongUse(sources.get(0) + ": one link at a time, and --out FILE.csv for what it sends");
        }
        List<String> words = new ArrayList<>(
                List.of("trace", sources.get(0), "--out", recorded.get().toString()));
        profile.ifPresent(p -> words.addAll(List.of("--profile", p)));
        seconds.ifPresent(s -> words.addAll(List.of("--seconds", s)));
        CommandLine program = Sweepbook.commandLine();
        program.setOut(spec.commandLine().getErr());
        program.setErr(spec.commandLine().getErr());
        return program.execute(words.toArray(String[]::new));
    }

    private List<Path> files() throws IOException, UserFault {
        List<Path> files = new ArrayList<>();
        if (isLink(sources.get(0))) {
            return List.of(recorded.orElseThrow());
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

    private Optional<String> decision(Estimate fim, LengthUnit unit) {
        return limit.map(l -> {
            Decision decision = Decision.of(fim, Tolerance.atMost(unit.toMm(l)), GuardBand.ONE_SIDED_95);
            return decision.verdict().words() + " (" + decision.rule().label() + ")";
        });
    }

    private RunoutSettings settings() {
        for (ReferenceCircle known : ReferenceCircle.values()) {
            if (known.letters().equalsIgnoreCase(circle)) {
                try {
                    return new RunoutSettings(marksPerTurn, order, cutoff_upr, known, Double.NaN);
                } catch (IllegalArgumentException e) {
                    throw new ParameterException(spec.commandLine(), e.getMessage());
                }
            }
        }
        throw new ParameterException(
                spec.commandLine(), "--circle " + circle + " is not known: say LSCI, MZCI, MCCI or MICI");
    }
}

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
import java.util.concurrent.Callable;
import java.util.stream.Stream;
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
import sweepbook.analysis.offset.CalibrationTable;
import sweepbook.analysis.offset.IndicatorLimits;
import sweepbook.analysis.runout.Runout;
import sweepbook.analysis.runout.RunoutReader;
import sweepbook.analysis.runout.RunoutSettings;
import sweepbook.analysis.runout.angle.MarkedReading;
import sweepbook.analysis.runout.circle.ReferenceCircle;
import sweepbook.analysis.runout.shaft.ShaftAxis;
import sweepbook.analysis.uncertainty.Decision;
import sweepbook.analysis.uncertainty.Estimate;
import sweepbook.analysis.uncertainty.Finding;
import sweepbook.analysis.uncertainty.GuardBand;
import sweepbook.analysis.uncertainty.Tolerance;
import sweepbook.cli.plan.Plan;
import sweepbook.cli.plan.PlanFile;
import sweepbook.cli.plan.Plans;
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

    @Option(
            names = "--marks-per-turn",
            paramLabel = "N",
            defaultValue = "1",
            description = "Witness marks on one turn, equally spaced (default: ${DEFAULT-VALUE}).")
    private int marksPerTurn;

    @Option(
            names = "--mark-on",
            paramLabel = "nearest|next",
            description = "Which reading carries a mark: the one nearest to its passing, or the next after it. Not"
                    + " said, angles count as from the nearest, and their uncertainty allows for the other.")
    private Optional<MarkOn> markOn = Optional.empty();

    private enum MarkOn {
        nearest(MarkedReading.NEAREST),
        next(MarkedReading.NEXT);

        private final MarkedReading marked;

        MarkOn(MarkedReading marked) {
            this.marked = marked;
        }
    }

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
            names = "--surface",
            paramLabel = "round|face",
            defaultValue = "round",
            description = "What the contact rides on: a round, or the face of a flange, disc or blade, along the axis"
                    + " (default: ${DEFAULT-VALUE}).")
    private String surface;

    @Option(
            names = "--fim-limit",
            split = ",",
            paramLabel = "[LEAST,]MOST",
            description = "Most full indicator movement that is allowed, and the least where there is one, in the unit"
                    + " of the traces: adds the decision (ISO 14253-1) and, for several files, the capability.")
    private List<Double> limits = List.of();

    /** Where the indicator's own errors are stated. */
    static final class Stated {
        @Option(
                names = "--plan",
                paramLabel = "PLAN",
                description =
                        "The plan that states the indicator's calibration, permissible error, hysteresis, tilt and"
                                + " lever.")
        private String plan;

        @Option(
                names = "--permissible-error",
                paramLabel = "LENGTH",
                description = "The indicator's maximum permissible error, as plus or minus, in the unit of the traces.")
        private Double permissibleError;
    }

    @ArgGroup
    private Stated stated = new Stated();

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
        Surface on = surface();
        List<RunoutReport.Entry> entries = new ArrayList<>();
        RunoutSettings settings = null;
        PrintWriter out = spec.commandLine().getOut();
        if (form.csv) {
            RunoutCsv.head(out);
        }
        for (Path file : files()) {
            Trace trace = TraceCsv.read(file);
            settings = settings(trace.unit());
            RunoutReport.Entry entry = read(file, trace, settings);
            if (!limits.isEmpty() && !entries.isEmpty() && entries.get(0).unit() != trace.unit()) {
                throw UserFault.wrongUse(file + ": its unit is not that of the files before it, so that --fim-limit "
                        + limits + " would mean two things; look at one unit at a time");
            }
            entries.add(entry);
            if (form.csv) {
                RunoutCsv.row(out, entry, settings, on);
            } else if (form.json) {
                ObjectNode object = RunoutText.json(entry, settings, on);
                out.println(JSON.writeValueAsString(object));
            }
        }
        if (!form.csv && !form.json && entries.size() == 1) {
            RunoutText.table(out, entries.get(0), settings, on);
        } else if (!form.csv && !form.json) {
            RunoutTable.print(out, entries, settings, on);
        }
        LengthUnit unit = entries.get(0).unit();
        boolean onePart = !along_mm.isEmpty() || separation.reversal || separation.steps;
        List<String> together = new ArrayList<>(onePart ? List.of() : RunoutSeries.words(entries, tolerance(unit)));
        Finding<ShaftAxis> axis = along_mm.isEmpty()
                ? Finding.notDetermined("no places along a shaft were named")
                : RunoutTogether.axis(runouts(entries), along_mm);
        if (!along_mm.isEmpty()) {
            together.addAll(RunoutTogether.alongAShaft(axis, unit));
        }
        together.addAll(apart(runouts(entries), unit));
        together.forEach((form.json || form.csv ? spec.commandLine().getErr() : out)::println);
        if (report.isPresent()) {
            PageFile.write(
                    report.get(),
                    RunoutReport.html(entries, settings, on, plannedIndicator(), together, axis.asOptional()));
        }
        out.flush();
        return entries.stream().allMatch(e -> e.runout().isFound()) ? ExitStatus.DONE : ExitStatus.NOT_DETERMINED;
    }

    private RunoutReport.Entry read(Path file, Trace trace, RunoutSettings settings) throws IOException, UserFault {
        Finding<Runout> runout = RunoutReader.read(trace, settings);
        Optional<Tolerance> tolerance = tolerance(trace.unit());
        Optional<String> decision = tolerance.isEmpty()
                ? Optional.empty()
                : runout.asOptional().map(r -> decision(r.fim(), tolerance.get(), trace.unit()));
        return new RunoutReport.Entry(TraceFile.of(file, trace), trace.unit(), runout, decision);
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

    /** In millimetres. */
    private Optional<Tolerance> tolerance(LengthUnit unit) throws UserFault {
        if (limits.isEmpty()) {
            return Optional.empty();
        }
        double most = limits.get(limits.size() - 1);
        double least = limits.size() == 1 ? Double.NEGATIVE_INFINITY : limits.get(0);
        if (limits.size() > 2 || !(most > 0) || !(least < most)) {
            throw UserFault.wrongUse("--fim-limit " + limits + ": say the most, above zero, or the least and the most");
        }
        return Optional.of(new Tolerance(unit.toMm(least), unit.toMm(most)));
    }

    private Surface surface() {
        for (Surface known : Surface.values()) {
            if (known.name().equalsIgnoreCase(surface)) {
                return known;
            }
        }
        throw new ParameterException(spec.commandLine(), "--surface " + surface + " is not known: say round or face");
    }

    private RunoutSettings settings(LengthUnit unit) throws IOException, UserFault {
        for (ReferenceCircle known : ReferenceCircle.values()) {
            if (known.letters().equalsIgnoreCase(circle)) {
                try {
                    return new RunoutSettings(
                            marksPerTurn,
                            markOn.map(on -> on.marked).orElse(MarkedReading.NOT_SAID),
                            order,
                            cutoff_upr,
                            known,
                            Double.NaN,
                            indicator(unit),
                            calibration());
                } catch (IllegalArgumentException e) {
                    throw new ParameterException(spec.commandLine(), e.getMessage());
                }
            }
        }
        throw new ParameterException(
                spec.commandLine(), "--circle " + circle + " is not known: say LSCI, MZCI, MCCI or MICI");
    }

    private Optional<CalibrationTable> calibration() throws IOException {
        return plannedIndicator().flatMap(Plan.Indicator::calibration);
    }

    private Optional<Plan.Indicator> plannedIndicator() throws IOException {
        return plan().map(Plan::indicator);
    }

    private Optional<Plan> plan() throws IOException {
        return stated.plan == null
                ? Optional.empty()
                : Optional.of(PlanFile.parse(stated.plan, Plans.text(stated.plan)));
    }

    private IndicatorLimits indicator(LengthUnit unit) throws IOException {
        Optional<Plan> plan = plan();
        if (plan.isPresent()) {
            return plan.get().conditions().indicator();
        }
        return stated.permissibleError == null
                ? IndicatorLimits.NOT_STATED
                : IndicatorLimits.NOT_STATED.withPermissibleError(unit.toMm(stated.permissibleError));
    }
}

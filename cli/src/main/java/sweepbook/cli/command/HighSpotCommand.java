package sweepbook.cli.command;

import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.io.IOException;
import java.io.PrintWriter;
import java.math.BigDecimal;
import java.math.RoundingMode;
import java.nio.file.Path;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.Set;
import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;
import sweepbook.acquisition.trace.LengthUnit;
import sweepbook.acquisition.trace.Trace;
import sweepbook.acquisition.trace.TraceCsv;
import sweepbook.analysis.sweep.Pass;
import sweepbook.analysis.sweep.Pressing;
import sweepbook.analysis.sweep.StableZero;
import sweepbook.analysis.sweep.SweepFindings;
import sweepbook.analysis.sweep.SweepReader;
import sweepbook.analysis.sweep.SweepSettings;
import sweepbook.analysis.uncertainty.Estimate;
import sweepbook.analysis.uncertainty.Finding;
import sweepbook.cli.book.LengthWords;

/** Says what trace files hold: high spot, stable zero, passes, clicks. */
@Command(name = "highspot", description = "Find the high spot and the stable zero in trace files.")
final class HighSpotCommand implements Callable<Integer> {
    private static final ObjectMapper JSON = new ObjectMapper();

    /** What a person may say of the pressing; auto leaves it to the trace. */
    enum PressingOption {
        RAISES(Optional.of(Pressing.RAISES)),
        LOWERS(Optional.of(Pressing.LOWERS)),
        AUTO(Optional.empty());

        private final Optional<Pressing> pressing;

        PressingOption(Optional<Pressing> pressing) {
            this.pressing = pressing;
        }

        @Override
        public String toString() {
            return name().toLowerCase(Locale.ROOT);
        }
    }

    @Spec
    private CommandSpec spec;

    @Option(names = "--json", description = "Print one JSON object a line, in the order of the files.")
    private boolean json;

    @Option(
            names = "--pressing",
            paramLabel = "raises|lowers|auto",
            defaultValue = "auto",
            description =
                    "What pressing the contact does to the reading (default: ${DEFAULT-VALUE}, told from the trace).")
    private PressingOption pressing;

    @Parameters(arity = "1..*", paramLabel = "FILE", description = "Trace files (CSV).")
    private List<Path> files;

    @Override
    public Integer call() throws IOException {
        PrintWriter out = spec.commandLine().getOut();
        boolean allFound = true;
        for (Path file : files) {
            Trace trace = TraceCsv.read(file);
            SweepFindings findings =
                    SweepReader.read(trace, new SweepSettings(pressing.pressing, trace.resolution_mm()));
            allFound &= findings.highSpot().isFound();
            if (json) {
                out.println(JSON.writeValueAsString(object(file, trace.unit(), findings)));
            } else {
                table(out, file, trace.unit(), findings);
            }
        }
        out.flush();
        return allFound ? ExitStatus.DONE : ExitStatus.NOT_DETERMINED;
    }

    private static ObjectNode object(Path file, LengthUnit unit, SweepFindings findings) {
        ObjectNode object = JSON.createObjectNode();
        object.put("file", file.toString());
        object.put("unit", unit.symbol());
        put(object, "resolution", step(unit, findings.resolution_mm()));
        Optional<Estimate> crest = findings.highSpot().asOptional();
        put(object, "highSpot", crest.map(e -> unit.fromMm(e.value())));
        put(object, "highSpotStdU", crest.map(e -> unit.fromMm(e.stdU())));
        put(object, "highSpotU95", crest.map(e -> unit.fromMm(e.u95())));
        Optional<StableZero> zero = findings.stableZero().asOptional();
        put(object, "stableZero", zero.map(z -> unit.fromMm(z.level().value())));
        put(object, "stableZeroStdU", zero.map(z -> unit.fromMm(z.level().stdU())));
        put(object, "stableZeroU95", zero.map(z -> unit.fromMm(z.level().u95())));
        put(object, "zeroFrom_s", zero.map(StableZero::from_s));
        put(object, "zeroTo_s", zero.map(StableZero::to_s));
        put(object, "crestMiss", findings.crestMiss().asOptional().map(e -> unit.fromMm(e.value())));
        object.put("passes", findings.passes().size());
        object.put("clicks", findings.clicks().count());
        LengthWords.in(unit, findings.warnings()).forEach(object.putArray("warnings")::add);
        Set<String> reasons = new LinkedHashSet<>();
        reason(findings.highSpot()).ifPresent(reasons::add);
        reason(findings.stableZero()).ifPresent(reasons::add);
        reason(findings.crestMiss()).ifPresent(reasons::add);
        if (!reasons.isEmpty()) {
            object.put("reason", String.join("; ", reasons));
        }
        return object;
    }

    private static void put(ObjectNode object, String key, Optional<Double> value) {
        object.put(key, value.orElse(null));
    }

    /** As the display shows it: a step that is whole in one unit is not so in the other. */
    private static Optional<Double> step(LengthUnit unit, double step_mm) {
        return step_mm > 0
                ? Optional.of(BigDecimal.valueOf(unit.fromMm(step_mm))
                        .setScale(unit.decimals(step_mm), RoundingMode.HALF_EVEN)
                        .doubleValue())
                : Optional.empty();
    }

    private static Optional<String> reason(Finding<?> finding) {
        return finding instanceof Finding.NotDetermined<?> not ? Optional.of(not.reason()) : Optional.empty();
    }

    private static void table(PrintWriter out, Path file, LengthUnit unit, SweepFindings findings) {
        out.println(file);
        line(out, "high spot", estimate(unit, findings.highSpot()));
        line(out, "stable zero", estimate(unit, findings.stableZero().map(StableZero::level)));
        findings.stableZero()
                .asOptional()
                .ifPresent(
                        z -> line(out, "", String.format(Locale.ROOT, "from %.2f s to %.2f s", z.from_s(), z.to_s())));
        line(out, "crest missed by", estimate(unit, findings.crestMiss()));
        long left =
                findings.passes().stream().filter(HighSpotCommand::isSetAside).count();
        line(out, "passes", findings.passes().size() + (left > 0 ? ", " + left + " set aside" : ""));
        line(out, "clicks", clicks(unit, findings));
        line(
                out,
                "pressing",
                findings.pressing()
                        .map(p -> p.name().toLowerCase(Locale.ROOT) + " the reading")
                        .orElse("not determined"));
        for (String warning : LengthWords.in(unit, findings.warnings())) {
            line(out, "note", warning);
        }
    }

    private static boolean isSetAside(Pass pass) {
        return pass.setAside().isPresent();
    }

    private static String clicks(LengthUnit unit, SweepFindings findings) {
        int count = findings.clicks().count();
        return count == 0
                ? "none"
                : String.format(
                        Locale.ROOT,
                        "%d of %s %s",
                        count,
                        number(unit, findings.clicks().step_mm()),
                        unit.symbol());
    }

    private static String estimate(LengthUnit unit, Finding<Estimate> finding) {
        if (finding instanceof Finding.NotDetermined<Estimate> not) {
            return "not determined: " + not.reason();
        }
        Estimate e = finding.asOptional().orElseThrow();
        return String.format(
                Locale.ROOT, "%s %s, within %s (95 %%)", number(unit, e.value()), unit.symbol(), number(unit, e.u95()));
    }

    /** Tenths of a micrometre, or their like in inches. */
    private static String number(LengthUnit unit, double length_mm) {
        return String.format(Locale.ROOT, unit == LengthUnit.MM ? "%.4f" : "%.5f", unit.fromMm(length_mm));
    }

    private static void line(PrintWriter out, String what, String value) {
        out.printf(Locale.ROOT, "  %-16s %s%n", what, value);
    }
}

package sweepbook.cli.command;

import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.io.PrintWriter;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.stream.Stream;
import sweepbook.acquisition.trace.LengthUnit;
import sweepbook.analysis.runout.AngleZero;
import sweepbook.analysis.runout.Harmonic;
import sweepbook.analysis.runout.Runout;
import sweepbook.analysis.runout.RunoutSettings;
import sweepbook.analysis.runout.TurnScatter;
import sweepbook.analysis.runout.circle.ReferenceCircle;
import sweepbook.analysis.uncertainty.BudgetLine;
import sweepbook.analysis.uncertainty.Estimate;
import sweepbook.analysis.uncertainty.Finding;
import sweepbook.analysis.uncertainty.Tolerance;
import sweepbook.cli.book.ProgramVersion;
import sweepbook.cli.report.RunoutReport;
import sweepbook.cli.report.Surface;

/** Runout in words and figures, in the unit of its trace. */
final class RunoutText {
    private static final ObjectMapper JSON = new ObjectMapper();

    private RunoutText() {}

    static String trimmed(double value) {
        return value == Math.rint(value) ? Long.toString(Math.round(value)) : Double.toString(value);
    }

    static ObjectNode json(RunoutReport.Entry entry, RunoutSettings settings, Surface surface) {
        LengthUnit unit = entry.unit();
        Finding<Runout> finding = entry.runout();
        Optional<Runout> runout = finding.asOptional();
        ObjectNode object = JSON.createObjectNode();
        object.put("file", entry.file().path().toString());
        object.put("sha256", entry.file().sha256());
        object.put("software", "sweepbook " + ProgramVersion.text());
        object.put("unit", unit.symbol());
        object.put("turns", runout.map(Runout::turns).orElse(null));
        put(object, unit, "fim", runout.map(Runout::fim));
        put(object, unit, "fimRaw", runout.map(Runout::rawFim));
        put(object, unit, "eccentricity", runout.map(Runout::eccentricity));
        Optional<Estimate> angle = runout.flatMap(r -> r.highSpotAngle_deg().asOptional());
        object.put("highSpotAngle_deg", angle.map(Estimate::value).orElse(null));
        object.put("highSpotAngleU95_deg", angle.map(Estimate::u95).orElse(null));
        object.put("angleZero", runout.map(r -> r.angleZero().words()).orElse(null));
        put(object, unit, "outOfRoundness", runout.map(r -> r.outOfRoundness().get(settings.circle())));
        object.put("outOfRoundnessMethod", surface.method(settings));
        ObjectNode circles = object.putObject("outOfRoundnessByCircle");
        for (ReferenceCircle circle : circles(surface)) {
            runout.map(r -> r.outOfRoundness().get(circle))
                    .ifPresent(e -> put(circles, unit, circle.letters(), Optional.of(e)));
        }
        ArrayNode harmonics = object.putArray("harmonics");
        runout.ifPresent(r -> r.harmonics().forEach(h -> {
            ObjectNode harmonic = harmonics.addObject();
            harmonic.put("upr", h.upr());
            put(harmonic, unit, "amplitude", Optional.of(h.amplitude()));
            Optional<Estimate> phase = h.phase_deg().asOptional();
            harmonic.put("phase_deg", phase.map(Estimate::value).orElse(null));
            harmonic.put("phaseU95_deg", phase.map(Estimate::u95).orElse(null));
        }));
        Optional<TurnScatter> scatter = runout.flatMap(r -> r.scatter().asOptional());
        put(object, unit, "turnRepeatability", scatter.map(TurnScatter::repeatability));
        put(object, unit, "asynchronous", scatter.map(TurnScatter::asynchronous));
        put(object, unit, "drift", runout.map(Runout::drift).filter(RunoutText::isTold));
        object.put("noise", runout.map(r -> unit.fromMm(r.noise_mm())).orElse(null));
        object.put("readingsLeftOut", runout.map(Runout::setAside).orElse(null));
        ArrayNode budget = object.putArray("fimBudget");
        runout.ifPresent(r -> r.fimBudget().largestFirst().forEach(line -> budget.addObject()
                .put("source", line.source())
                .put("adds", unit.fromMm(line.contribution()))
                .put("toLowerIt", line.toLowerIt())));
        ArrayNode warnings = object.putArray("warnings");
        runout.ifPresent(r -> r.warnings().forEach(warnings::add));
        if (finding instanceof Finding.NotDetermined<Runout> not) {
            object.put("reason", not.reason());
        }
        entry.decision().ifPresent(words -> object.put("decision", words));
        return object;
    }

    /** A limit as it is stated: the most, or the least and the most. */
    static String limits(Tolerance tolerance, LengthUnit unit) {
        String most = length(unit, tolerance.upper());
        return Double.isFinite(tolerance.lower()) ? length(unit, tolerance.lower()) + " to " + most : "at most " + most;
    }

    private static void put(ObjectNode object, LengthUnit unit, String key, Optional<Estimate> estimate) {
        object.put(key, estimate.map(e -> unit.fromMm(e.value())).orElse(null));
        object.put(key + "U95", estimate.map(e -> unit.fromMm(e.u95())).orElse(null));
    }

    static void table(PrintWriter out, RunoutReport.Entry entry, RunoutSettings settings, Surface surface) {
        LengthUnit unit = entry.unit();
        Finding<Runout> finding = entry.runout();
        out.println(entry.file().path());
        if (finding instanceof Finding.NotDetermined<Runout> not) {
            line(out, "runout", "not determined: " + not.reason());
            return;
        }
        Runout runout = finding.asOptional().orElseThrow();
        line(out, "turns", Integer.toString(runout.turns()));
        line(out, surface.movement(), estimate(unit, runout.fim()) + ", spikes and noise taken out");
        line(out, "", estimate(unit, runout.rawFim()) + " as read, spikes and noise in it");
        entry.decision().ifPresent(words -> line(out, "", words));
        line(out, surface.first(), estimate(unit, runout.eccentricity()));
        line(out, surface.highSpot(), highSpot(runout));
        for (ReferenceCircle circle : circles(surface)) {
            line(
                    out,
                    surface.form(circle),
                    estimate(unit, runout.outOfRoundness().get(circle))
                            + (circle == settings.circle() ? ", " + surface.method(settings) : ""));
        }
        for (Harmonic h : runout.harmonics()) {
            if (h.upr() == 1 || h.amplitude().value() > h.amplitude().u95()) {
                line(
                        out,
                        "harmonic " + h.upr(),
                        estimate(unit, h.amplitude())
                                + (runout.angleZero() == AngleZero.FIRST_READING ? "" : phase(h)));
            }
        }
        runout.scatter().asOptional().ifPresent(s -> {
            line(out, "turns repeat to", estimate(unit, s.repeatability()) + ", standard deviation");
            line(out, "asynchronous", estimate(unit, s.asynchronous()) + ", greatest spread at one angle");
        });
        if (isTold(runout.drift())) {
            line(out, "drift", estimate(unit, runout.drift()) + " over the trace, taken out");
        }
        line(out, "noise of a reading", length(unit, runout.noise_mm()));
        for (BudgetLine line : runout.fimBudget().largestFirst()) {
            line(
                    out,
                    "standard uncertainty",
                    number(unit, line.contribution(), decimals(unit, line.contribution())) + " " + unit.symbol() + "  "
                            + line.source());
        }
        for (String warning : runout.warnings()) {
            line(out, "note", warning);
        }
    }

    /** One turn alone does not tell a drift, and none is taken out of it. */
    private static boolean isTold(Estimate drift) {
        return drift.stdU() > 0;
    }

    /** The reference circles that the surface has. */
    private static List<ReferenceCircle> circles(Surface surface) {
        return Stream.of(ReferenceCircle.values()).filter(surface::has).toList();
    }

    private static String phase(Harmonic h) {
        return h.phase_deg()
                .asOptional()
                .map(phase ->
                        String.format(Locale.ROOT, ", phase %.1f degrees within %.1f", phase.value(), phase.u95()))
                .orElse(", phase not known");
    }

    private static String highSpot(Runout runout) {
        if (runout.highSpotAngle_deg() instanceof Finding.NotDetermined<Estimate> not) {
            return "no angle: " + not.reason();
        }
        Estimate angle = runout.highSpotAngle_deg().asOptional().orElseThrow();
        return String.format(
                Locale.ROOT,
                "at %.1f degrees, within %.1f (95 %%), from the %s in the direction of turning",
                angle.value(),
                angle.u95(),
                runout.angleZero() == AngleZero.FIRST_MARK ? "first mark" : "zero of the stated angles");
    }

    static String estimate(LengthUnit unit, Estimate e) {
        int decimals = decimals(unit, e);
        return number(unit, e.value(), decimals) + " " + unit.symbol() + ", within " + number(unit, e.u95(), decimals)
                + " (95 %)";
    }

    /** So many decimals that two digits of its U95 show, four at least; two more of an inch. */
    static int decimals(LengthUnit unit, Estimate e) {
        return decimals(unit, e.u95());
    }

    private static int decimals(LengthUnit unit, double uncertainty_mm) {
        int decimals = uncertainty_mm == 0 ? 0 : 1 - (int) Math.floor(Math.log10(uncertainty_mm));
        return Math.max(4, Math.min(6, decimals)) + (unit == LengthUnit.MM ? 0 : 2);
    }

    static String length(LengthUnit unit, double length_mm) {
        return number(unit, length_mm, unit == LengthUnit.MM ? 4 : 6) + " " + unit.symbol();
    }

    static String number(LengthUnit unit, double length_mm, int decimals) {
        return String.format(Locale.ROOT, "%." + decimals + "f", unit.fromMm(length_mm));
    }

    private static void line(PrintWriter out, String what, String value) {
        out.printf(Locale.ROOT, "  %-24s %s%n", what, value);
    }
}

package sweepbook.cli.command;

import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.io.PrintWriter;
import java.nio.file.Path;
import java.util.Locale;
import java.util.Optional;
import sweepbook.acquisition.trace.LengthUnit;
import sweepbook.analysis.runout.AngleZero;
import sweepbook.analysis.runout.Harmonic;
import sweepbook.analysis.runout.Runout;
import sweepbook.analysis.runout.RunoutSettings;
import sweepbook.analysis.runout.circle.ReferenceCircle;
import sweepbook.analysis.uncertainty.Estimate;
import sweepbook.analysis.uncertainty.Finding;

/** Runout in words and figures, in the unit of its trace. */
final class RunoutText {
    private static final ObjectMapper JSON = new ObjectMapper();

    private RunoutText() {}

    static String method(ReferenceCircle circle, RunoutSettings settings) {
        return String.format(
                Locale.ROOT,
                "%s (%s), Gaussian filter %s UPR",
                circle.letters(),
                circle.words(),
                trimmed(settings.cutoff_upr()));
    }

    static String trimmed(double value) {
        return value == Math.rint(value) ? Long.toString(Math.round(value)) : Double.toString(value);
    }

    static ObjectNode json(Path file, LengthUnit unit, Finding<Runout> finding, RunoutSettings settings) {
        Optional<Runout> runout = finding.asOptional();
        ObjectNode object = JSON.createObjectNode();
        object.put("file", file.toString());
        object.put("unit", unit.symbol());
        object.put("turns", runout.map(Runout::turns).orElse(null));
        put(object, unit, "fim", runout.map(Runout::fim));
        object.put("fimRaw", runout.map(r -> unit.fromMm(r.rawFim_mm())).orElse(null));
        put(object, unit, "eccentricity", runout.map(Runout::eccentricity));
        Optional<Estimate> angle = runout.flatMap(r -> r.highSpotAngle_deg().asOptional());
        object.put("highSpotAngle_deg", angle.map(Estimate::value).orElse(null));
        object.put("highSpotAngleU95_deg", angle.map(Estimate::u95).orElse(null));
        object.put("angleZero", runout.map(r -> r.angleZero().words()).orElse(null));
        put(object, unit, "outOfRoundness", runout.map(r -> r.outOfRoundness().get(settings.circle())));
        object.put("outOfRoundnessMethod", method(settings.circle(), settings));
        ObjectNode circles = object.putObject("outOfRoundnessByCircle");
        for (ReferenceCircle circle : ReferenceCircle.values()) {
            runout.map(r -> r.outOfRoundness().get(circle))
                    .ifPresent(e -> put(circles, unit, circle.letters(), Optional.of(e)));
        }
        ArrayNode harmonics = object.putArray("harmonics");
        runout.ifPresent(r -> r.harmonics().forEach(h -> {
            ObjectNode harmonic = harmonics.addObject();
            harmonic.put("upr", h.upr());
            put(harmonic, unit, "amplitude", Optional.of(h.amplitude()));
            harmonic.put("phase_deg", h.phase_deg());
        }));
        object.put(
                "turnRepeatability",
                runout.flatMap(r -> r.scatter().asOptional())
                        .map(s -> unit.fromMm(s.repeatability_mm()))
                        .orElse(null));
        object.put(
                "asynchronous",
                runout.flatMap(r -> r.scatter().asOptional())
                        .map(s -> unit.fromMm(s.asynchronous_mm()))
                        .orElse(null));
        put(object, unit, "drift", runout.map(Runout::drift));
        object.put("noise", runout.map(r -> unit.fromMm(r.noise_mm())).orElse(null));
        object.put("readingsLeftOut", runout.map(Runout::setAside).orElse(null));
        ArrayNode warnings = object.putArray("warnings");
        runout.ifPresent(r -> r.warnings().forEach(warnings::add));
        if (finding instanceof Finding.NotDetermined<Runout> not) {
            object.put("reason", not.reason());
        }
        return object;
    }

    private static void put(ObjectNode object, LengthUnit unit, String key, Optional<Estimate> estimate) {
        object.put(key, estimate.map(e -> unit.fromMm(e.value())).orElse(null));
        object.put(key + "U95", estimate.map(e -> unit.fromMm(e.u95())).orElse(null));
    }

    static void table(
            PrintWriter out,
            Path file,
            LengthUnit unit,
            Finding<Runout> finding,
            RunoutSettings settings,
            Optional<String> decision) {
        out.println(file);
        if (finding instanceof Finding.NotDetermined<Runout> not) {
            line(out, "runout", "not determined: " + not.reason());
            return;
        }
        Runout runout = finding.asOptional().orElseThrow();
        line(out, "turns", Integer.toString(runout.turns()));
        line(out, "full indicator movement", estimate(unit, runout.fim()) + ", spikes and noise taken out");
        line(out, "", length(unit, runout.rawFim_mm()) + " as read, greatest of all turns");
        decision.ifPresent(words -> line(out, "", words));
        line(out, "eccentricity", estimate(unit, runout.eccentricity()));
        line(out, "its high spot", highSpot(runout));
        for (ReferenceCircle circle : ReferenceCircle.values()) {
            line(
                    out,
                    "out-of-roundness " + circle.letters(),
                    estimate(unit, runout.outOfRoundness().get(circle))
                            + (circle == settings.circle() ? ", " + method(circle, settings) : ""));
        }
        for (Harmonic h : runout.harmonics()) {
            if (h.amplitude().value() > 0) {
                line(
                        out,
                        "harmonic " + h.upr(),
                        estimate(unit, h.amplitude())
                                + (runout.angleZero() == AngleZero.FIRST_READING
                                        ? ""
                                        : String.format(Locale.ROOT, ", phase %.1f degrees", h.phase_deg())));
            }
        }
        runout.scatter().asOptional().ifPresent(s -> {
            line(out, "turns repeat to", length(unit, s.repeatability_mm()) + " (standard deviation)");
            line(out, "asynchronous", length(unit, s.asynchronous_mm()) + " (greatest spread at one angle)");
        });
        line(out, "drift", estimate(unit, runout.drift()) + " over the trace, taken out");
        line(out, "noise of a reading", length(unit, runout.noise_mm()));
        for (String warning : runout.warnings()) {
            line(out, "note", warning);
        }
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
        return length(unit, e.value()) + ", within " + number(unit, e.u95()) + " (95 %)";
    }

    static String length(LengthUnit unit, double length_mm) {
        return number(unit, length_mm) + " " + unit.symbol();
    }

    /** Tenths of a micrometre, or their like in inches. */
    private static String number(LengthUnit unit, double length_mm) {
        return String.format(Locale.ROOT, unit == LengthUnit.MM ? "%.4f" : "%.6f", unit.fromMm(length_mm));
    }

    private static void line(PrintWriter out, String what, String value) {
        out.printf(Locale.ROOT, "  %-24s %s%n", what, value);
    }
}

package sweepbook.cli.command;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import sweepbook.acquisition.trace.LengthUnit;
import sweepbook.analysis.runout.AngleZero;
import sweepbook.analysis.runout.Runout;
import sweepbook.analysis.runout.separation.PartAndSpindle;
import sweepbook.analysis.runout.shaft.ShaftAxis;
import sweepbook.analysis.runout.shaft.Station;
import sweepbook.analysis.uncertainty.Estimate;
import sweepbook.analysis.uncertainty.Finding;
import sweepbook.cli.report.RunoutReport;

/** What several traces say only together, in sentences. */
final class RunoutTogether {
    private RunoutTogether() {}

    /** Which file is a copy of one before it, if any is. */
    static Optional<String> copy(List<RunoutReport.Entry> entries) {
        Map<String, Path> seen = new HashMap<>();
        for (RunoutReport.Entry entry : entries) {
            Path other = seen.putIfAbsent(entry.file().sha256(), entry.file().path());
            if (other != null) {
                return Optional.of(entry.file().path() + " holds the same bytes as " + other);
            }
        }
        return Optional.empty();
    }

    /** The axis of a shaft that was read at several places. */
    static Finding<ShaftAxis> axis(List<Runout> runouts, List<Double> places_mm) throws UserFault {
        if (places_mm.size() != runouts.size()) {
            throw UserFault.wrongUse("--along names " + places_mm.size() + " places for " + runouts.size()
                    + " traces with figures; name one place for each trace");
        }
        List<Station> stations = new ArrayList<>();
        for (int i = 0; i < runouts.size(); i++) {
            Optional<Estimate> angle =
                    angled(runouts.get(i)).highSpotAngle_deg().asOptional();
            // Where the eccentricity drowns in its uncertainty any direction will do: its length says so.
            Estimate towards = angle.orElse(new Estimate(0, 180, 1e6));
            stations.add(Station.of(places_mm.get(i), runouts.get(i).eccentricity(), towards));
        }
        return ShaftAxis.of(stations);
    }

    /** What that axis is like. */
    static List<String> alongAShaft(Finding<ShaftAxis> found, LengthUnit unit) {
        if (found instanceof Finding.NotDetermined<ShaftAxis> not) {
            return List.of("axis of the shaft not determined: " + not.reason());
        }
        ShaftAxis axis = found.asOptional().orElseThrow();
        List<String> words = new ArrayList<>();
        words.add(String.format(
                Locale.ROOT,
                "the shaft's axis leans by %.4f mm per m, within %.4f (95 %%), towards %.0f degrees",
                1000 * axis.lean().value(),
                1000 * axis.lean().u95(),
                (axis.leanAngle_deg() + 360) % 360));
        if (axis.stations().size() > 2) {
            words.add("its greatest bend is " + RunoutText.estimate(unit, axis.bend()) + ", at "
                    + RunoutText.trimmed(axis.bendAt_mm()) + " mm along it");
        }
        return words;
    }

    /** Part and spindle from two runs, part and indicator turned by 180 degrees between them. */
    static List<String> reversal(List<Runout> runs, LengthUnit unit) throws UserFault {
        if (runs.size() != 2) {
            throw UserFault.wrongUse("--reversal needs two traces with figures, not " + runs.size());
        }
        return words(Finding.found(PartAndSpindle.byReversal(angled(runs.get(0)), angled(runs.get(1)))), unit);
    }

    /** Part and spindle from N runs, the part turned on by 360/N degrees before each. */
    static List<String> steps(List<Runout> runs, LengthUnit unit) throws UserFault {
        if (runs.size() < 2) {
            throw UserFault.wrongUse("--steps needs two traces with figures or more, not " + runs.size());
        }
        for (Runout run : runs) {
            angled(run);
        }
        return words(PartAndSpindle.bySteps(runs), unit);
    }

    private static Runout angled(Runout run) throws UserFault {
        if (run.angleZero() == AngleZero.FIRST_READING) {
            throw UserFault.wrongUse("traces without marks or angles cannot be set against each other; mark the turns");
        }
        return run;
    }

    private static List<String> words(Finding<PartAndSpindle> found, LengthUnit unit) {
        if (found instanceof Finding.NotDetermined<PartAndSpindle> not) {
            return List.of("part and spindle not determined: " + not.reason());
        }
        PartAndSpindle apart = found.asOptional().orElseThrow();
        List<String> words = new ArrayList<>();
        words.add("form of the part alone, peak to valley: " + RunoutText.estimate(unit, apart.part()));
        words.add("error motion of the spindle alone, peak to valley: " + RunoutText.estimate(unit, apart.spindle()));
        apart.mixed()
                .ifPresent(n -> words.add(
                        "undulations of the part that are multiples of " + n + " are counted to the spindle"));
        return words;
    }
}

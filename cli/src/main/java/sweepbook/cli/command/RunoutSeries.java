package sweepbook.cli.command;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.OptionalInt;
import sweepbook.acquisition.trace.LengthUnit;
import sweepbook.analysis.runout.series.Capability;
import sweepbook.analysis.runout.series.Outlier;
import sweepbook.analysis.uncertainty.Tolerance;
import sweepbook.cli.report.RunoutReport;

/** What the full indicator movements of several parts say together. */
final class RunoutSeries {
    private static final int LEAST_PIECES = 3;
    private static final double SIGNIFICANCE = 0.05;

    private RunoutSeries() {}

    /** In sentences; none for too few parts. */
    static List<String> words(List<RunoutReport.Entry> entries, Optional<Tolerance> limits) {
        List<RunoutReport.Entry> parts =
                entries.stream().filter(e -> e.runout().isFound()).toList();
        double[] fim = parts.stream()
                .mapToDouble(e -> e.runout().asOptional().orElseThrow().fim().value())
                .toArray();
        if (fim.length < LEAST_PIECES) {
            return List.of();
        }
        LengthUnit unit = parts.get(0).unit();
        List<String> words = new ArrayList<>();
        double spread = 0;
        for (double f : fim) {
            spread = Math.max(spread, Math.abs(f - fim[0]));
        }
        if (spread == 0) {
            return List.of("all " + fim.length + " full indicator movements are the same");
        }
        Capability all = Capability.of(
                fim,
                lower(limits),
                OptionalDouble.of(limits.map(Tolerance::upper).orElse(0.0)));
        words.add(String.format(
                Locale.ROOT,
                "%d parts: mean full indicator movement %.5f %s, standard deviation %.5f %s",
                all.n(),
                unit.fromMm(all.mean_mm()),
                unit.symbol(),
                unit.fromMm(all.s_mm()),
                unit.symbol()));
        if (limits.isPresent()) {
            words.add(all.cp().exists() ? index("Cp", all.cp()) : "no Cp: it needs a lower limit, and runout has none");
            words.add(index("Cpk", all.cpk()) + " (ISO 22514-2, for values near normal)");
        }
        OptionalInt odd = Outlier.of(fim, SIGNIFICANCE);
        odd.ifPresent(i -> words.add(parts.get(i).name() + " does not belong to the others (Grubbs' test at 5 %)"));
        return words;
    }

    /** Zero bounds every runout and is no limit of its process. */
    private static OptionalDouble lower(Optional<Tolerance> limits) {
        return limits.isPresent() && limits.get().lower() > 0
                ? OptionalDouble.of(limits.get().lower())
                : OptionalDouble.empty();
    }

    private static String index(String name, Capability.Index index) {
        return String.format(
                Locale.ROOT,
                "%s %.2f, between %.2f and %.2f with 95 %% confidence",
                name,
                index.value(),
                index.lower(),
                index.upper());
    }
}

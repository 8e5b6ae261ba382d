package sweepbook.cli.command;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.OptionalDouble;
import java.util.OptionalInt;
import sweepbook.acquisition.trace.LengthUnit;
import sweepbook.analysis.runout.series.Capability;
import sweepbook.analysis.runout.series.Outlier;

/** What the full indicator movements of several parts say together. */
final class RunoutSeries {
    private static final int LEAST_PIECES = 3;
    private static final double SIGNIFICANCE = 0.05;

    private final List<String> names = new ArrayList<>();
    private final List<Double> fims_mm = new ArrayList<>();

    void add(String name, double fim_mm) {
        names.add(name);
        fims_mm.add(fim_mm);
    }

    /** In sentences; none for too few parts. */
    List<String> words(LengthUnit unit, OptionalDouble limit_mm) {
        double[] fim = fims_mm.stream().mapToDouble(Double::doubleValue).toArray();
        if (fim.length < LEAST_PIECES) {
            return List.of();
        }
        List<String> words = new ArrayList<>();
        double spread = 0;
        for (double f : fim) {
            spread = Math.max(spread, Math.abs(f - fim[0]));
        }
        if (spread == 0) {
            return List.of("all " + fim.length + " full indicator movements are the same");
        }
        Capability all = Capability.of(fim, OptionalDouble.empty(), OptionalDouble.of(limit_mm.orElse(0)));
        words.add(String.format(
                Locale.ROOT,
                "%d parts: mean full indicator movement %.5f %s, standard deviation %.5f %s",
                all.n(),
                unit.fromMm(all.mean_mm()),
                unit.symbol(),
                unit.fromMm(all.s_mm()),
                unit.symbol()));
        if (limit_mm.isPresent()) {
            words.add(String.format(
                    Locale.ROOT,
                    "Cpk against the upper limit %.5f %s: %.2f, between %.2f and %.2f with 95 %% confidence"
                            + " (ISO 22514-2, for values near normal; with an upper limit only there is no Cp)",
                    unit.fromMm(limit_mm.getAsDouble()),
                    unit.symbol(),
                    all.cpk().value(),
                    all.cpk().lower(),
                    all.cpk().upper()));
        }
        OptionalInt odd = Outlier.of(fim, SIGNIFICANCE);
        odd.ifPresent(i -> words.add(names.get(i) + " does not belong to the others (Grubbs' test at 5 %)"));
        return words;
    }
}

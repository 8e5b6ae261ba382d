package sweepbook.cli.report;

import java.util.List;
import java.util.Map;
import java.util.SortedMap;
import java.util.TreeMap;
import java.util.stream.Collectors;
import sweepbook.acquisition.trace.LengthUnit;
import sweepbook.analysis.head.TipErrors;
import sweepbook.analysis.head.TipErrors.TipError;
import sweepbook.analysis.uncertainty.Estimate;
import sweepbook.cli.book.ToolEffect;
import sweepbook.cli.plan.PlannedHead;

/** What the present table does at the tool: by how much the tip misses, over the positions of the rotary axes. */
final class EffectSection {
    private final Page page;
    private final Markup html;
    private final LengthUnit unit;

    EffectSection(Page page, LengthUnit unit) {
        this.page = page;
        this.html = page.html();
        this.unit = unit;
    }

    void write(ToolEffect effect) {
        html.open("section", "class", "offset", "aria-labelledby", "effect")
                .element("h2", "What the present table does at the tool", "id", "effect");
        TipError worst = TipErrors.worst(effect.errors());
        page.facts(new Page.Facts()
                .add("Tip misses at worst", Figures.withU95(size(worst), unit) + " at " + pose(worst.pose()))
                .add("Typically (root mean square)", Figures.length(TipErrors.typical_mm(effect.errors()), unit))
                .add("Measured offsets that come in", String.join(", ", effect.counted())));
        html.element(
                "p",
                "The part is taken as touched off with all rotary axes at zero, so that the tip misses nothing there."
                        + " Entries that were not measured are taken as right.");
        html.open("figure").open("div", "class", "pictures");
        effect.head().swings().forEach(swing -> html.raw(picture(swing.axis(), effect.over(swing))));
        html.close().close();
        PlannedHead.Swing matters = effect.mattersMost();
        table(matters.axis(), effect.over(matters));
        html.close();
    }

    private static Estimate size(TipError error) {
        return error.size().combined();
    }

    /** A nanometre is what is left of the arithmetic. */
    private static boolean isNone(TipError error) {
        return error.size().value() < 1e-6;
    }

    private static String pose(Map<String, Double> pose) {
        return new TreeMap<>(pose)
                .entrySet().stream()
                        .map(axis -> axis.getKey() + " " + Figures.plain(axis.getValue(), 1) + "\u00b0")
                        .collect(Collectors.joining(", "));
    }

    private String picture(String axis, SortedMap<Double, List<TipError>> byPosition) {
        List<Double> positions = List.copyOf(byPosition.keySet());
        List<TipError> worst =
                byPosition.values().stream().map(TipErrors::worst).toList();
        List<Double> typical = byPosition.values().stream()
                .map(TipErrors::typical_mm)
                .map(unit::fromMm)
                .toList();
        double greatest = worst.stream()
                .mapToDouble(
                        error -> unit.fromMm(size(error).value() + size(error).u95()))
                .max()
                .orElseThrow();
        double first = positions.get(0);
        double last = Math.max(positions.get(positions.size() - 1), first + 1);
        Picture picture = new Picture(
                "effect-" + axis,
                "How far the tip misses over " + axis,
                "The worst and the typical miss over the positions of " + axis + "; the bars are U95.",
                PictureAxis.ofAngle(axis + ", \u00b0", first, last),
                PictureAxis.around("tip misses by, " + unit.symbol(), 0, greatest, unit.fromMm(0.01)),
                List.of());
        int n = positions.size();
        picture.line(n, positions::get, i -> unit.fromMm(size(worst.get(i)).value()), 2 * (last - first), Ink.FIRST);
        picture.line(n, positions::get, typical::get, 2 * (last - first), Ink.SECOND);
        for (int i = 0; i < n; i++) {
            double value = unit.fromMm(size(worst.get(i)).value());
            double u95 = unit.fromMm(size(worst.get(i)).u95());
            picture.distance(positions.get(i), value - u95, value + u95, Ink.FIRST, "");
        }
        int middle = n / 4;
        picture.mark(
                positions.get(middle),
                unit.fromMm(size(worst.get(middle)).value()),
                Picture.Shape.CIRCLE,
                Ink.FIRST,
                "worst");
        picture.mark(positions.get(middle), typical.get(middle), Picture.Shape.CIRCLE, Ink.SECOND, "typical");
        return picture.svg();
    }

    private void table(String axis, SortedMap<Double, List<TipError>> byPosition) {
        Table table = new Table(
                html,
                "Miss of the tip over the positions of " + axis,
                List.of(axis, "At worst", "There", "Along X, Y, Z", "Typically", "More than chance", "Tool leans"));
        byPosition.forEach((position, errors) -> {
            TipError worst = TipErrors.worst(errors);
            table.row(
                    Figures.plain(position, 1) + "\u00b0",
                    isNone(worst) ? "none" : Figures.withU95(size(worst), unit),
                    isNone(worst) ? "\u2013" : pose(worst.pose()),
                    Figures.length(worst.miss().x_mm(), unit) + ", "
                            + Figures.length(worst.miss().y_mm(), unit) + ", "
                            + Figures.length(worst.miss().z_mm(), unit),
                    Figures.length(TipErrors.typical_mm(errors), unit),
                    worst.isSignificant() && !isNone(worst) ? "yes" : "no",
                    Figures.plain(worst.lean_deg(), 4) + "\u00b0");
        });
        table.close();
    }
}

package sweepbook.cli.report;

import java.math.BigDecimal;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import sweepbook.acquisition.trace.LengthUnit;
import sweepbook.analysis.offset.EntryUnit;
import sweepbook.analysis.runout.AngleZero;
import sweepbook.analysis.runout.Harmonic;
import sweepbook.analysis.runout.Runout;
import sweepbook.analysis.runout.RunoutSettings;
import sweepbook.analysis.runout.TurnScatter;
import sweepbook.analysis.runout.circle.ReferenceCircle;
import sweepbook.analysis.runout.fit.Profile;
import sweepbook.analysis.runout.shaft.ShaftAxis;
import sweepbook.analysis.uncertainty.Estimate;
import sweepbook.analysis.uncertainty.Finding;

/** Traces of turned parts as a page: figures, and a polar, an unrolled and a harmonic picture of each. */
public final class RunoutReport {
    private static final int STEPS = 720;
    private static final int MOST_BARS = 30;

    /**
     * One trace.
     *
     * @param decision against its limit, in words; empty without a limit
     */
    public record Entry(String name, LengthUnit unit, Finding<Runout> runout, Optional<String> decision) {}

    private RunoutReport() {}

    /** @param axis of a shaft on which the traces were read, where they were */
    public static String html(
            List<Entry> entries,
            RunoutSettings settings,
            Surface surface,
            List<String> ofTheSeries,
            Optional<ShaftAxis> axis) {
        Page page = new Page(
                entries.size() == 1 ? entries.get(0).name() : "Runout of " + entries.size() + " traces",
                surface == Surface.ROUND
                        ? "Runout, eccentricity and roundness of turned parts"
                        : "Axial runout, wobble and wave of turned faces");
        page.warnings(ofTheSeries);
        if (entries.size() > 1) {
            overview(page, entries, settings, surface);
        }
        axis.ifPresent(along -> page.html()
                .open("figure")
                .open("div", "class", "pictures")
                .raw(ShaftPicture.svg("shaft", along, entries.get(0).unit()))
                .close()
                .element(
                        "figcaption",
                        "Centres of the sections off the axis of turning: towards 0\u00b0 full line with dots, towards"
                                + " 90\u00b0 dashed line with crosses; the table of each trace gives their uncertainty.")
                .close());
        for (int i = 0; i < entries.size(); i++) {
            section(page, entries.get(i), "part" + (i + 1), settings, surface);
        }
        page.html()
                .element(
                        "p",
                        "Full indicator movement is the greatest less the least reading of a turn (formerly TIR);"
                                + " eccentricity is the amplitude of the first harmonic. Angles count from the zero named,"
                                + " in the direction of turning. Let no blade or cutter turn under power while the"
                                + " indicator rides on it; keep to the machine maker's manual and the site's lock-out"
                                + " rules.");
        page.footer();
        return page.finish();
    }

    private static void overview(Page page, List<Entry> entries, RunoutSettings settings, Surface surface) {
        Table table = new Table(
                page.html(),
                "All traces",
                List.of(
                        "Trace",
                        Figures.capitalised(surface.movement()),
                        Figures.capitalised(surface.first()),
                        Figures.capitalised(surface.form(settings.circle())),
                        "Decision or reason"));
        for (Entry entry : entries) {
            if (entry.runout() instanceof Finding.NotDetermined<Runout> not) {
                table.row(entry.name(), "", "", "", "not determined: " + not.reason());
                continue;
            }
            Runout runout = entry.runout().asOptional().orElseThrow();
            table.row(
                    entry.name(),
                    Figures.withU95(runout.fim(), entry.unit()),
                    Figures.withU95(runout.eccentricity(), entry.unit()),
                    Figures.withU95(runout.outOfRoundness().get(settings.circle()), entry.unit()),
                    entry.decision().orElse(""));
        }
        table.close();
    }

    private static void section(Page page, Entry entry, String id, RunoutSettings settings, Surface surface) {
        page.html().element("h2", "Figures of " + entry.name());
        if (entry.runout() instanceof Finding.NotDetermined<Runout> not) {
            page.html().element("p", "Not determined: " + not.reason() + ".");
            return;
        }
        Runout runout = entry.runout().asOptional().orElseThrow();
        page.facts(facts(entry, runout, settings, surface));
        page.warnings(runout.warnings());
        Markup html = page.html();
        html.open("figure").open("div", "class", "pictures");
        html.raw(polar(id, runout, entry.unit(), settings, surface));
        html.raw(unrolled(id, runout, entry.unit()));
        html.raw(harmonic(id, runout, entry.unit()));
        html.close()
                .element(
                        "figcaption",
                        surface.departure() + " after the filter, enlarged; all readings against the angle"
                                + " (dots) with the profile (line), drift taken out; amplitudes by undulations per"
                                + " revolution, the open end of each bar at its value.")
                .close();
        new BudgetSection(html, entry.unit() == LengthUnit.MM ? EntryUnit.MM : EntryUnit.IN)
                .write(surface.movement(), runout.fimBudget());
    }

    private static Page.Facts facts(Entry entry, Runout runout, RunoutSettings settings, Surface surface) {
        LengthUnit unit = entry.unit();
        Page.Facts facts = new Page.Facts()
                .add("Turns", Integer.toString(runout.turns()))
                .add(Figures.capitalised(surface.movement()), Figures.withU95(runout.fim(), unit))
                .add("As read, noise and spikes in it", Figures.withU95(runout.rawFim(), unit))
                .add("Decision", entry.decision().orElse(""))
                .add(Figures.capitalised(surface.first()), Figures.withU95(runout.eccentricity(), unit))
                .add(Figures.capitalised(surface.highSpot()), highSpot(runout));
        for (ReferenceCircle circle : ReferenceCircle.values()) {
            if (surface.has(circle)) {
                facts.add(
                        Figures.capitalised(surface.form(circle)),
                        Figures.withU95(runout.outOfRoundness().get(circle), unit));
            }
        }
        facts.add(
                "Filter",
                "Gaussian, 50 % at "
                        + BigDecimal.valueOf(settings.cutoff_upr())
                                .stripTrailingZeros()
                                .toPlainString() + " UPR (ISO 16610-21)");
        runout.scatter().asOptional().ifPresent((TurnScatter scatter) -> facts.add(
                        "Turns repeat to", Figures.withU95(scatter.repeatability(), unit) + " (standard deviation)")
                .add("Asynchronous, greatest", Figures.withU95(scatter.asynchronous(), unit)));
        return facts.add("Drift over the trace, taken out", Figures.withU95(runout.drift(), unit))
                .add("Noise of a reading", Figures.length(runout.noise_mm(), unit))
                .add("Readings left out as spikes", Integer.toString(runout.setAside()));
    }

    private static String highSpot(Runout runout) {
        if (runout.highSpotAngle_deg() instanceof Finding.NotDetermined<Estimate> not) {
            return not.reason();
        }
        Estimate angle = runout.highSpotAngle_deg().asOptional().orElseThrow();
        return String.format(
                Locale.ROOT,
                "%.1f\u00b0 \u00b1 %.1f\u00b0 from the %s",
                angle.value(),
                angle.u95(),
                runout.angleZero() == AngleZero.FIRST_MARK ? "first mark" : "zero of the stated angles");
    }

    private static String polar(String id, Runout runout, LengthUnit unit, RunoutSettings settings, Surface surface) {
        Profile form = runout.profile().filtered(settings.cutoff_upr()).aboutItsCentre();
        double most = 1e-12;
        for (double v : form.sampled(STEPS)) {
            most = Math.max(most, Math.abs(v));
        }
        double step = Ticks.between(0, unit.fromMm(most), 3).step().doubleValue();
        PolarPicture picture = new PolarPicture(
                id + "-polar",
                "Polar picture",
                surface.departure(),
                most,
                unit.toMm(step),
                "ring " + Figures.length(unit.toMm(step), unit));
        picture.curve(form::at, Ink.FIRST);
        if (runout.highSpotAngle_deg().isFound()) {
            picture.pointer(runout.profile().phase_rad(1), "high spot", Ink.SECOND);
        }
        return picture.svg();
    }

    private static String unrolled(String id, Runout runout, LengthUnit unit) {
        double[] angle = runout.unrolled().angle_deg();
        double[] departure = runout.unrolled().departure_mm();
        double[] curve = runout.profile().sampled(STEPS);
        double mean = runout.profile().mean_mm();
        double least = Double.POSITIVE_INFINITY;
        double greatest = Double.NEGATIVE_INFINITY;
        for (double v : curve) {
            least = Math.min(least, v - mean);
            greatest = Math.max(greatest, v - mean);
        }
        // A spike or two must not flatten the picture: it shows the profile with the noise about it.
        double room = 4 * runout.noise_mm();
        Picture picture = new Picture(
                id + "-unrolled",
                "Unrolled picture",
                "All readings of all turns against the angle, and the profile through them",
                PictureAxis.ofAngle("angle, degrees", 0, 360),
                PictureAxis.around(
                        "departure, " + unit.symbol(),
                        unit.fromMm(least - room),
                        unit.fromMm(greatest + room),
                        unit.fromMm(2 * runout.step_mm())),
                List.of());
        picture.dots(angle.length, i -> folded(angle[i]), i -> unit.fromMm(departure[i]), Ink.FAINT);
        picture.line(
                STEPS + 1,
                i -> 360.0 * i / STEPS,
                i -> unit.fromMm(curve[i % STEPS] - mean),
                Double.POSITIVE_INFINITY,
                Ink.FIRST);
        return picture.svg();
    }

    private static double folded(double angle_deg) {
        return angle_deg - 360 * Math.floor(angle_deg / 360);
    }

    private static String harmonic(String id, Runout runout, LengthUnit unit) {
        List<Harmonic> harmonics = runout.harmonics()
                .subList(0, Math.min(MOST_BARS, runout.harmonics().size()));
        double most = harmonics.stream()
                .filter(h -> h.upr() > 1)
                .mapToDouble(h -> h.amplitude().value())
                .max()
                .orElse(runout.eccentricity().value());
        Picture picture = new Picture(
                id + "-harmonic",
                "Harmonic picture",
                "Amplitude against undulations per revolution, from two on",
                PictureAxis.of("undulations per revolution", 0.5, Math.max(2, harmonics.size()) + 0.5),
                PictureAxis.of("amplitude, " + unit.symbol(), 0, unit.fromMm(Math.max(most, 1e-9)) * 1.1),
                List.of());
        for (Harmonic h : harmonics) {
            if (h.upr() > 1 && h.amplitude().value() > 0) {
                picture.distance(h.upr(), 0, unit.fromMm(h.amplitude().value()), Ink.FIRST, "");
            }
        }
        return picture.svg();
    }
}

package sweepbook.cli.report;

import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import sweepbook.acquisition.trace.LengthUnit;
import sweepbook.analysis.offset.EntryUnit;
import sweepbook.analysis.offset.IndicatorLimits;
import sweepbook.analysis.runout.AngleZero;
import sweepbook.analysis.runout.Harmonic;
import sweepbook.analysis.runout.Runout;
import sweepbook.analysis.runout.RunoutSettings;
import sweepbook.analysis.runout.TurnScatter;
import sweepbook.analysis.runout.circle.ReferenceCircle;
import sweepbook.analysis.runout.shaft.ShaftAxis;
import sweepbook.analysis.uncertainty.Estimate;
import sweepbook.analysis.uncertainty.Finding;
import sweepbook.cli.plan.Plan;

/** Traces of turned parts as a page: figures, and a polar, an unrolled and a harmonic picture of each. */
public final class RunoutReport {
    /**
     * One trace.
     *
     * @param decision against its limit, in words; empty without a limit
     */
    public record Entry(TraceFile file, LengthUnit unit, Finding<Runout> runout, Optional<String> decision) {
        public String name() {
            return file.name();
        }
    }

    private RunoutReport() {}

    /**
     * @param indicator as a plan describes it, where one was named
     * @param axis of a shaft on which the traces were read, where they were
     */
    public static String html(
            List<Entry> entries,
            RunoutSettings settings,
            Surface surface,
            Optional<Plan.Indicator> indicator,
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
        page.html().element("h2", "How the figures were obtained");
        page.facts(basis(settings, indicator, entries.get(0).unit()));
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
                    entry.decision().orElse("no limit was named"));
        }
        table.close();
    }

    private static void section(Page page, Entry entry, String id, RunoutSettings settings, Surface surface) {
        page.html().element("h2", "Figures of " + entry.name());
        if (entry.runout() instanceof Finding.NotDetermined<Runout> not) {
            page.html().element("p", "Not determined: " + not.reason() + ".");
            page.facts(entry.file().to(new Page.Facts()));
            return;
        }
        Runout runout = entry.runout().asOptional().orElseThrow();
        page.facts(facts(entry, runout, settings, surface));
        page.warnings(runout.warnings());
        Markup html = page.html();
        html.open("figure").open("div", "class", "pictures");
        html.raw(RunoutPictures.polar(id, runout, entry.unit(), settings, surface));
        html.raw(RunoutPictures.unrolled(id, runout, entry.unit()));
        html.raw(RunoutPictures.harmonic(id, runout, entry.unit()));
        html.close()
                .element(
                        "figcaption",
                        surface.departure() + " after the filter, enlarged; all readings against the angle"
                                + " (dots) with the profile (line), drift taken out; amplitudes by undulations per"
                                + " revolution, the open end of each bar at its value.")
                .close();
        new BudgetSection(html, entry.unit() == LengthUnit.MM ? EntryUnit.MM : EntryUnit.IN)
                .write(surface.movement(), runout.fimBudget());
        harmonics(html, runout, entry.unit());
        html.element("h3", "The trace");
        page.facts(entry.file().to(new Page.Facts()));
    }

    private static void harmonics(Markup html, Runout runout, LengthUnit unit) {
        html.element("h3", "Harmonics");
        boolean angles = runout.angleZero() != AngleZero.FIRST_READING;
        Table table = new Table(
                html,
                "Those that stand out of their own uncertainty, and the first",
                angles
                        ? List.of("Undulations per revolution", "Amplitude", "Greatest at")
                        : List.of("Undulations per revolution", "Amplitude"));
        for (Harmonic h : runout.harmonics()) {
            if (h.upr() > 1 && h.amplitude().value() <= h.amplitude().u95()) {
                continue;
            }
            List<String> cells =
                    new ArrayList<>(List.of(Integer.toString(h.upr()), Figures.withU95(h.amplitude(), unit)));
            if (angles) {
                cells.add(h.phase_deg().asOptional().map(RunoutReport::angle).orElse("\u2013"));
            }
            table.row(cells.toArray(new String[0]));
        }
        table.close();
    }

    private static Page.Facts basis(RunoutSettings settings, Optional<Plan.Indicator> indicator, LengthUnit unit) {
        Page.Facts facts = new Page.Facts();
        indicator.ifPresent(its -> facts.add("Indicator", its.description())
                .add("Indicator's serial number", its.serial())
                .add("Indicator calibrated", its.calibrated().orElse("no date on record"))
                .add(
                        "Calibration table",
                        its.calibration().isPresent() ? "taken off each reading" : "none: readings as they came"));
        IndicatorLimits limits = settings.indicator();
        return facts.add("Indicator's permissible error", plusMinus(limits.permissibleError_mm(), unit))
                .add("Indicator's hysteresis", stated(limits.hysteresis_mm(), unit))
                .add("Marks on a turn", Integer.toString(settings.marksPerTurn()))
                .add("Highest undulations looked at", settings.order() + " per revolution");
    }

    private static String plusMinus(double limit_mm, LengthUnit unit) {
        return Double.isNaN(limit_mm) ? stated(limit_mm, unit) : "\u00b1\u00a0" + stated(limit_mm, unit);
    }

    private static String stated(double limit_mm, LengthUnit unit) {
        return Double.isNaN(limit_mm) ? "not stated, and not in U95" : Figures.length(limit_mm, unit);
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
        // One turn alone does not tell a drift, and none is taken out of it.
        boolean hasDrift = runout.drift().stdU() > 0;
        return facts.add("Drift over the trace, taken out", hasDrift ? Figures.withU95(runout.drift(), unit) : "")
                .add("Noise of a reading", Figures.length(runout.noise_mm(), unit))
                .add("Readings left out as spikes", Integer.toString(runout.setAside()));
    }

    private static String highSpot(Runout runout) {
        if (runout.highSpotAngle_deg() instanceof Finding.NotDetermined<Estimate> not) {
            return not.reason();
        }
        return angle(runout.highSpotAngle_deg().asOptional().orElseThrow()) + " from the "
                + (runout.angleZero() == AngleZero.FIRST_MARK ? "first mark" : "zero of the stated angles");
    }

    private static String angle(Estimate angle_deg) {
        return String.format(Locale.ROOT, "%.1f\u00b0 \u00b1 %.1f\u00b0", angle_deg.value(), angle_deg.u95());
    }
}

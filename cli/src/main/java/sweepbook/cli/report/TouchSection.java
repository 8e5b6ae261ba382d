package sweepbook.cli.report;

import java.util.List;
import sweepbook.acquisition.trace.LengthUnit;
import sweepbook.acquisition.trace.Trace;
import sweepbook.analysis.offset.Feature;
import sweepbook.analysis.sweep.Pass;
import sweepbook.analysis.sweep.StableZero;
import sweepbook.analysis.sweep.SweepFindings;
import sweepbook.cli.book.Attempt;
import sweepbook.cli.book.BookEvent.Fate;
import sweepbook.cli.book.BookEvent.Moment;
import sweepbook.cli.book.LengthWords;
import sweepbook.cli.book.OffsetResult.TouchResult;
import sweepbook.cli.plan.Plan;
import sweepbook.cli.plan.PlannedOffset;

/** One touch: the typed positions, what its trace says, its pictures. */
final class TouchSection {
    private final Page page;
    private final Markup html;
    private final PlannedOffset planned;
    private final Plan.Machine machine;

    TouchSection(Page page, PlannedOffset planned, Plan.Machine machine) {
        this.page = page;
        this.html = page.html();
        this.planned = planned;
        this.machine = machine;
    }

    void write(TouchResult touch) {
        Attempt attempt = touch.attempt();
        Feature feature = planned.touches().get(touch.touch()).feature();
        html.element(
                "h3",
                "Touch " + (touch.touch() + 1) + ": " + feature.name()
                        + planned.touches()
                                .get(touch.touch())
                                .spot()
                                .map(spot -> ", spot " + spot)
                                .orElse(""));
        Page.Facts facts = new Page.Facts()
                .add("Begun", BookReport.time(attempt.wall_s()) + ", attempt " + attempt.number() + " of the book");
        for (Moment moment : Moment.values()) {
            facts.add(shown(moment), position(attempt, moment));
        }
        LengthUnit unit = attempt.trace().unit();
        page.facts(
                feature instanceof Feature.Flat
                        ? onFlat(facts, touch.findings(), unit)
                        : findings(facts, touch.findings(), unit));
        page.warnings(LengthWords.in(unit, touch.findings().warnings()));
        pictures(html, "attempt-" + attempt.number(), attempt.trace(), touch.findings());
    }

    private String shown(Moment moment) {
        return switch (moment) {
            case ON_CREST -> planned.axis() + " on the crest";
            case ON_TRAVEL ->
                planned.method()
                        .travelAxis()
                        .map(axis -> axis + " of the travel")
                        .orElse("Travel");
            case AT_THE_END -> planned.axis() + " at the end";
        };
    }

    private String position(Attempt attempt, Moment moment) {
        return attempt.taken(moment)
                .map(at -> attempt.position(moment).orElseThrow().toPlainString() + " "
                        + machine.resolution().unit().symbol() + ", typed \u201c"
                        + at.typed().text() + "\u201d at " + BookReport.timeOfDay(at.wall_s())
                        + (at.typed().fate() == Fate.INSISTED
                                ? ", against the doubt: " + at.typed().why()
                                : ""))
                .orElse("");
    }

    /** What a trace says, in the unit that the indicator shows. */
    static Page.Facts findings(Page.Facts facts, SweepFindings findings, LengthUnit unit) {
        facts.add("High spot", Figures.withU95(findings.highSpot(), unit))
                .add("Stable zero", stableZero(findings, unit))
                .add("Crest miss", Figures.withU95(findings.crestMiss(), unit))
                .add("Reading on the crest at that position", Figures.withU95(findings.readingAtZero(), unit))
                .add("Passes", passes(findings.passes()))
                .add("Jog clicks", clicks(findings, unit))
                .add(
                        "Pressing",
                        findings.pressing()
                                .map(p -> p.sign() > 0 ? "raises the reading" : "lowers the reading")
                                .orElse("not determined"));
        if (findings.noise_mm() > 0) {
            facts.add("Scatter of a single reading", Figures.length(findings.noise_mm(), unit));
        }
        return facts;
    }

    /** A flat face has no crest. */
    /** Clicks are counted from the crest on, which a flat feature does not have. */
    private static Page.Facts onFlat(Page.Facts facts, SweepFindings findings, LengthUnit unit) {
        return facts.add("Stable zero", stableZero(findings, unit))
                .add("Jog clicks", findings.clicks().count() == 0 ? "" : clicks(findings, unit));
    }

    private static String stableZero(SweepFindings findings, LengthUnit unit) {
        return Figures.withU95(findings.stableZero().map(StableZero::level), unit);
    }

    private static String passes(List<Pass> passes) {
        StringBuilder text = new StringBuilder(Integer.toString(passes.size()));
        for (int i = 0; i < passes.size(); i++) {
            int number = i + 1;
            passes.get(i).setAside().ifPresent(why -> text.append("; pass ")
                    .append(number)
                    .append(" set aside: ")
                    .append(why));
        }
        return text.toString();
    }

    private static String clicks(SweepFindings findings, LengthUnit unit) {
        if (findings.clicks().count() == 0) {
            return "none";
        }
        return findings.clicks().count() + " of "
                + Figures.length(findings.clicks().step_mm(), unit) + ", "
                + Figures.length(findings.clicks().travel_mm(), unit) + " in all";
    }

    static void pictures(Markup html, String id, Trace trace, SweepFindings findings) {
        if (trace.isEmpty()) {
            return;
        }
        TracePicture picture = new TracePicture(id, trace, findings);
        html.open("figure").open("div", "class", "pictures").raw(picture.whole());
        picture.crest().ifPresent(html::raw);
        html.close().element("figcaption", picture.description()).close();
    }
}

package sweepbook.cli.report;

import java.util.List;
import sweepbook.analysis.offset.EntryUnit;
import sweepbook.analysis.uncertainty.Budget;
import sweepbook.analysis.uncertainty.BudgetLine;
import sweepbook.analysis.uncertainty.MonteCarlo;

/** Where the uncertainty of an entry comes from, with what would lower each part of it. */
final class BudgetSection {
    /** Enough for two digits. */
    private static final int DRAWS = 20_000;

    private static final long SEED = 1;

    private final Markup html;
    private final EntryUnit unit;

    BudgetSection(Markup html, EntryUnit unit) {
        this.html = html;
        this.unit = unit;
    }

    /** @param of what the budget belongs to */
    void write(String of, Budget budget) {
        html.element("h3", "How well it is known");
        double variance = Math.pow(budget.combined().stdU(), 2);
        Table table = new Table(
                html,
                "Uncertainty budget of the " + of + ", largest first (JCGM 100:2008)",
                List.of(
                        "Source",
                        "Adds",
                        "Share",
                        "Own u \u00d7 sensitivity",
                        "Distribution",
                        "Degrees of freedom",
                        "To lower it"));
        for (BudgetLine line : budget.largestFirst()) {
            table.row(
                    line.source(),
                    Figures.small(line.contribution(), unit),
                    Figures.plain(100 * Math.pow(line.contribution(), 2) / variance, 1) + "\u00a0%",
                    Figures.significant(line.stdU()) + (line.unit().isEmpty() ? "" : "\u00a0" + line.unit())
                            + " \u00d7 " + Figures.significant(line.sensitivity()),
                    line.distribution().label(),
                    Figures.freedom(line.degreesOfFreedom()),
                    line.toLowerIt());
        }
        table.close();
        html.element(
                "p",
                "Together: standard uncertainty "
                        + Figures.small(budget.combined().stdU(), unit) + " with "
                        + Figures.freedom(budget.combined().degreesOfFreedom())
                        + " effective degrees of freedom, U95 "
                        + Figures.small(budget.combined().u95(), unit) + ". " + drawn(budget));
    }

    /** Half of what the middle 95 % of the draws span, beside U95. */
    private String drawn(Budget budget) {
        MonteCarlo drawn = MonteCarlo.of(budget, DRAWS, SEED);
        return "Checked by " + DRAWS + " draws of the same lines (JCGM 101:2008): 95 % of them lie within "
                + Figures.small((drawn.upper(0.95) - drawn.lower(0.95)) / 2, unit) + ".";
    }
}

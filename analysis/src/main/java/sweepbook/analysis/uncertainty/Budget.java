package sweepbook.analysis.uncertainty;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;

/**
 * A result with all its sources of uncertainty (JCGM 100:2008, 5.1.2). The lines are independent of each other: sources
 * that belong together stand on one line that says so.
 *
 * @param value the result, in millimetres unless the holder says otherwise
 * @param lines in the order of the measurement; lines that contribute nothing are left out
 */
public record Budget(double value, List<BudgetLine> lines) {
    public Budget {
        if (!Double.isFinite(value)) {
            throw new IllegalArgumentException("a result is a finite number, not " + value);
        }
        lines = lines.stream().filter(line -> line.contribution() > 0).toList();
    }

    /**
     * The result with its combined standard uncertainty and effective degrees of freedom by Welch and Satterthwaite
     * (JCGM 100:2008, G.4.1), not cut to a whole number.
     */
    public Estimate combined() {
        double variance = 0;
        double perFreedom = 0;
        for (BudgetLine line : lines) {
            double part = line.contribution() * line.contribution();
            variance += part;
            perFreedom += part * part / line.degreesOfFreedom();
        }
        double freedom = perFreedom > 0 ? variance * variance / perFreedom : Double.POSITIVE_INFINITY;
        return new Estimate(value, Math.sqrt(variance), freedom);
    }

    /** The lines as a person wants them: the largest contribution first. */
    public List<BudgetLine> largestFirst() {
        return lines.stream()
                .sorted(Comparator.comparingDouble(BudgetLine::contribution).reversed())
                .toList();
    }

    /** The result times an exact factor. */
    public Budget times(double factor) {
        return new Budget(
                value * factor, lines.stream().map(line -> line.times(factor)).toList());
    }

    /** The same sources for another value: an exact amount was added to the result. */
    public Budget shiftedTo(double newValue) {
        return new Budget(newValue, lines);
    }

    /** The same result with one more source. */
    public Budget with(BudgetLine line) {
        List<BudgetLine> more = new ArrayList<>(lines);
        more.add(line);
        return new Budget(value, more);
    }
}

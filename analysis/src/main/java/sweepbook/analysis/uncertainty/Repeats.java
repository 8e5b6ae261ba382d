package sweepbook.analysis.uncertainty;

import java.util.List;
import org.hipparchus.distribution.continuous.FDistribution;
import org.hipparchus.stat.StatUtils;

/**
 * One quantity measured several times, each time with an uncertainty of its own: do the repeats scatter as these say
 * (JCGM 100:2008, H.5)?
 */
public final class Repeats {
    /**
     * A scatter seen against the scatter stated: F.
     *
     * @param seen standard deviation of the values
     * @param freedom degrees of freedom of it; with none, nothing is too large
     * @param stated what the stdU of one value was stated to be, with the degrees of freedom of that
     */
    public record Ratio(double seen, double freedom, double stated, double statedFreedom) {
        private static final double PROBABILITY = 0.95;

        public Ratio(double seen, double freedom, Estimate stated) {
            this(seen, freedom, stated.stdU(), stated.degreesOfFreedom());
        }

        /** Seen variance over stated variance; infinite where none was stated. */
        public double value() {
            return seen * seen / (stated * stated);
        }

        /** The ratio that chance exceeds once in twenty. */
        public double critical() {
            return critical(PROBABILITY);
        }

        double critical(double probability) {
            double ofStated = Math.min(statedFreedom, 1e6); // F changes no more beyond
            return new FDistribution(freedom, ofStated).inverseCumulativeProbability(probability);
        }

        /** Whether something changes from value to value that the stated uncertainties do not know of. */
        public boolean isTooLarge() {
            return freedom > 0 && value() > critical();
        }

        /** Standard deviation of what changes, beyond what was stated; 0 if nothing does. */
        public double beyond() {
            return Math.sqrt(Math.max(0, seen * seen - stated * stated));
        }
    }

    private final double[] values;
    private final double mean;
    private final Ratio ratio;

    /** At least two repeats. */
    public Repeats(List<Estimate> repeats) {
        if (repeats.size() < 2) {
            throw new IllegalArgumentException("one measurement is no repeat");
        }
        values = repeats.stream().mapToDouble(Estimate::value).toArray();
        mean = StatUtils.mean(values);
        double meanSquare = repeats.stream()
                .mapToDouble(repeat -> repeat.stdU() * repeat.stdU())
                .average()
                .orElseThrow();
        ratio = new Ratio(
                Math.sqrt(StatUtils.variance(values, mean)),
                values.length - 1,
                Math.sqrt(meanSquare),
                repeats.stream().mapToDouble(Estimate::degreesOfFreedom).sum());
    }

    /** The scatter of the repeats against what their own uncertainties explain. */
    public Ratio ratio() {
        return ratio;
    }

    /** Their mean with its uncertainty by the scatter alone. */
    public Estimate mean() {
        return new Estimate(mean, ratio.seen() / Math.sqrt(values.length), ratio.freedom());
    }

    /**
     * How much each repeat resembles the one before it (lag-1 autocorrelation): near 0 for independent ones; near 1
     * they follow a drift and their mean is worth less than their number.
     */
    public double resemblance() {
        double sum = 0;
        double squares = 0;
        for (int i = 0; i < values.length; i++) {
            double here = values[i] - mean;
            squares += here * here;
            sum += i > 0 ? here * (values[i - 1] - mean) : 0;
        }
        return squares > 0 ? sum / squares : 0;
    }
}

package sweepbook.analysis.uncertainty;

import java.util.List;
import org.hipparchus.distribution.continuous.FDistribution;
import org.hipparchus.stat.StatUtils;

/**
 * One quantity measured several times, each time with an uncertainty of its own: do the repeats scatter as these say
 * (JCGM 100:2008, H.5)? Degrees of freedom of the stated uncertainties are pooled as the sum of the parts.
 */
public final class Repeats {
    private static final double PROBABILITY = 0.95;

    private final double[] values;
    private final double mean;
    private final double scatter;
    private final double stated;
    private final double statedFreedom;

    /** At least two repeats. */
    public Repeats(List<Estimate> repeats) {
        if (repeats.size() < 2) {
            throw new IllegalArgumentException("one measurement is no repeat");
        }
        values = repeats.stream().mapToDouble(Estimate::value).toArray();
        mean = StatUtils.mean(values);
        scatter = Math.sqrt(StatUtils.variance(values, mean));
        stated = Math.sqrt(repeats.stream()
                .mapToDouble(repeat -> repeat.stdU() * repeat.stdU())
                .average()
                .orElseThrow());
        statedFreedom = repeats.stream().mapToDouble(Estimate::degreesOfFreedom).sum();
    }

    public double mean() {
        return mean;
    }

    /** Standard deviation of the repeats about their mean. */
    public double scatter() {
        return scatter;
    }

    /** Standard uncertainty of the mean by the scatter alone, with its degrees of freedom. */
    public Estimate byScatter() {
        return new Estimate(mean, scatter / Math.sqrt(values.length), values.length - 1);
    }

    /** Variance of the repeats over what their own uncertainties explain: F; infinite where these are 0. */
    public double ratio() {
        return scatter * scatter / (stated * stated);
    }

    /** The ratio that chance reaches once in twenty. */
    public double criticalRatio() {
        return criticalRatio(PROBABILITY);
    }

    double criticalRatio(double probability) {
        double freedom = Math.min(statedFreedom, 1e6); // F changes no more beyond
        return new FDistribution(values.length - 1, freedom).inverseCumulativeProbability(probability);
    }

    /** Whether something changes from repeat to repeat that their own uncertainties do not know of. */
    public boolean disagree() {
        return ratio() > criticalRatio();
    }

    /** Standard deviation of what changes from repeat to repeat, beyond their own uncertainties; 0 if nothing does. */
    public double between() {
        return Math.sqrt(Math.max(0, scatter * scatter - stated * stated));
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
        return sum / squares;
    }
}

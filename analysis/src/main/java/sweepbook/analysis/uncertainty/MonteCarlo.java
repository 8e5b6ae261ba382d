package sweepbook.analysis.uncertainty;

import java.util.Arrays;
import java.util.List;
import java.util.function.ToDoubleFunction;
import org.hipparchus.random.RandomDataGenerator;
import org.hipparchus.random.Well19937c;
import org.hipparchus.stat.StatUtils;

/**
 * Propagation of distributions by drawing them (JCGM 101:2008, clause 7): a check of a budget that takes neither
 * linearity nor normality for granted.
 */
public final class MonteCarlo {
    /**
     * One input: its best value and how far around it the truth may lie.
     *
     * @param value best estimate
     * @param distribution what is known of it
     * @param stdU its standard uncertainty
     * @param degreesOfFreedom a normal one with few of them is drawn from the scaled t-distribution (6.4.9)
     */
    public record Input(double value, Distribution distribution, double stdU, double degreesOfFreedom) {
        double draw(RandomDataGenerator random) {
            return value
                    + stdU
                            * switch (distribution) {
                                case NORMAL -> student(random);
                                case RECTANGULAR -> Math.sqrt(3) * (2 * random.nextDouble() - 1);
                                case TRIANGULAR -> Math.sqrt(6) * (random.nextDouble() - random.nextDouble());
                                case ARCSINE -> Math.sqrt(2) * Math.sin(2 * Math.PI * random.nextDouble());
                            };
        }

        private double student(RandomDataGenerator random) {
            double normal = random.nextGaussian();
            return Double.isInfinite(degreesOfFreedom)
                    ? normal
                    : normal / Math.sqrt(random.nextGamma(degreesOfFreedom / 2, 2) / degreesOfFreedom);
        }
    }

    private final double[] sorted;

    /**
     * @param model the result from the inputs, in their order
     * @param trials how many draws; a million gives the limits of 95 % to two or three digits (7.2)
     * @param seed the same seed gives the same draws
     */
    public MonteCarlo(ToDoubleFunction<double[]> model, List<Input> inputs, int trials, long seed) {
        RandomDataGenerator random = RandomDataGenerator.of(new Well19937c(seed));
        sorted = new double[trials];
        double[] drawn = new double[inputs.size()];
        for (int t = 0; t < trials; t++) {
            for (int i = 0; i < drawn.length; i++) {
                drawn[i] = inputs.get(i).draw(random);
            }
            sorted[t] = model.applyAsDouble(drawn);
        }
        Arrays.sort(sorted);
    }

    /** The draws of a budget's lines, added up with their sensitivities. */
    public static MonteCarlo of(Budget budget, int trials, long seed) {
        List<BudgetLine> lines = budget.lines();
        return new MonteCarlo(
                drawn -> {
                    double sum = budget.value();
                    for (int i = 0; i < drawn.length; i++) {
                        sum += lines.get(i).sensitivity() * drawn[i];
                    }
                    return sum;
                },
                lines.stream()
                        .map(line -> new Input(0, line.distribution(), line.stdU(), line.degreesOfFreedom()))
                        .toList(),
                trials,
                seed);
    }

    public double mean() {
        return StatUtils.mean(sorted);
    }

    public double stdU() {
        return Math.sqrt(StatUtils.variance(sorted));
    }

    /** Lower end of the probabilistically symmetric interval (7.7.2). */
    public double lower(double probability) {
        return quantile((1 - probability) / 2);
    }

    /** Upper end of the probabilistically symmetric interval. */
    public double upper(double probability) {
        return quantile((1 + probability) / 2);
    }

    private double quantile(double p) {
        return sorted[(int) Math.min(sorted.length - 1L, Math.max(0, Math.round(p * sorted.length - 0.5)))];
    }
}

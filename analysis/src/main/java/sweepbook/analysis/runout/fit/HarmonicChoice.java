package sweepbook.analysis.runout.fit;

import java.util.Arrays;
import java.util.Comparator;
import java.util.stream.IntStream;

/** Which undulations a profile holds: those that stand above the noise, told from the spectrum of what is left. */
public final class HarmonicChoice {
    /** Chance that noise alone makes one of all the undulations looked at be taken for the part's. */
    private static final double FALSE_ALARM = 0.01;

    /** Undulations that turned parts have of their making; they are fitted whether they stand out or not. */
    private static final int ALWAYS = 6;

    private HarmonicChoice() {}

    /** The undulations fitted in any case, where the order allows them. */
    public static int[] usual(int order) {
        return IntStream.rangeClosed(1, Math.min(ALWAYS, order)).toArray();
    }

    /** The undulations fitted and those that still stand in the residuals, ascending, at most so many in all. */
    public static int[] withMissing(TurnFit fit, int[] fitted, int order, int most) {
        double[] residual = fit.residuals_mm();
        double limit = limit(fit.scatter_mm(), residual.length, order);
        double[] angle = fit.angles_rad();
        double[] power = new double[order + 1];
        for (int n = 1; n <= order; n++) {
            power[n] = contains(fitted, n) ? 0 : power(residual, angle, n);
        }
        int[] all = Arrays.copyOf(fitted, Math.max(fitted.length, most));
        int count = fitted.length;
        while (count < most) {
            int strongest = 0;
            for (int n = 1; n <= order; n++) {
                strongest = power[n] > power[strongest] ? n : strongest;
            }
            if (strongest == 0 || power[strongest] < limit) {
                break;
            }
            power[strongest] = 0;
            all[count++] = strongest;
        }
        all = Arrays.copyOf(all, count);
        Arrays.sort(all);
        return all;
    }

    /** The undulations fitted, with the strongest of the others. */
    public static int[] withStrongest(TurnFit fit, int[] fitted, int order) {
        double[] residual = fit.residuals_mm();
        double[] angle = fit.angles_rad();
        int strongest = IntStream.rangeClosed(1, order)
                .filter(n -> !contains(fitted, n))
                .boxed()
                .max(Comparator.comparingDouble(n -> power(residual, angle, n)))
                .orElseThrow();
        return IntStream.concat(Arrays.stream(fitted), IntStream.of(strongest))
                .sorted()
                .toArray();
    }

    /** The usual undulations, and those of the others that stand above the noise of the fit. */
    public static int[] pruned(TurnFit fit, int[] fitted, int order) {
        Profile profile = fit.profile();
        return Arrays.stream(fitted)
                .filter(n -> {
                    int column = fit.column(profile.indexOf(n));
                    double variance = (fit.covariance().getEntry(column, column)
                                    + fit.covariance().getEntry(column + 1, column + 1))
                            / 2;
                    double amplitude = profile.amplitude_mm(n);
                    return n <= ALWAYS || amplitude * amplitude > 2 * variance * Math.log(order / FALSE_ALARM);
                })
                .toArray();
    }

    /** Squared amplitude that white noise exceeds but rarely. */
    private static double limit(double scatter_mm, int samples, int order) {
        return 4 * scatter_mm * scatter_mm / samples * Math.log(order / FALSE_ALARM);
    }

    private static double power(double[] residual, double[] angle_rad, int n) {
        double cos = 0;
        double sin = 0;
        for (int i = 0; i < residual.length; i++) {
            cos += residual[i] * Math.cos(n * angle_rad[i]);
            sin += residual[i] * Math.sin(n * angle_rad[i]);
        }
        double scale = 2.0 / residual.length;
        return scale * scale * (cos * cos + sin * sin);
    }

    private static boolean contains(int[] fitted, int n) {
        return Arrays.stream(fitted).anyMatch(f -> f == n);
    }
}

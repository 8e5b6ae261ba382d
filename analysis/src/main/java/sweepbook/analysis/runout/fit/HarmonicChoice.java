package sweepbook.analysis.runout.fit;

import java.util.Arrays;
import java.util.Comparator;
import java.util.stream.IntStream;

/** Which undulations a profile holds: those that stand above the noise, told from the spectrum of what is left. */
public final class HarmonicChoice {
    /** Chance that noise alone makes one of the many undulations that parts seldom have be taken for the part's. */
    private static final double FALSE_ALARM = 0.01;
    /** Chance for one of those that parts often have: it costs less to fit one too many than to miss one. */
    private static final double FALSE_ALARM_LOW = 0.05;

    /** Up to so many a turn, parts often have undulations. */
    private static final int LOW = 15;
    /** Undulations that turned parts have of their making; they are fitted whether they stand out or not. */
    private static final int ALWAYS = 6;

    private HarmonicChoice() {}

    /** The undulations fitted in any case, where the order allows them. */
    public static int[] usual(int order) {
        return IntStream.rangeClosed(1, Math.min(ALWAYS, order)).toArray();
    }

    /** The undulations fitted and those that still stand in the residuals, ascending, at most so many in all. */
    public static int[] withMissing(TurnFit fit, int[] fitted, int order, int most) {
        // Squared amplitudes over the least that counts: where that is above 1, the undulation stands.
        double[] power = new double[order + 1];
        double[] departure = fit.departures_mm();
        double[] angle = fit.angles_rad();
        double variance = coefficientVariance(fit);
        for (int n = 1; n <= order; n++) {
            power[n] = contains(fitted, n) ? 0 : power(departure, angle, n) / limit(n, variance, order);
        }
        int[] all = Arrays.copyOf(fitted, Math.max(fitted.length, most));
        int count = fitted.length;
        while (count < most) {
            int strongest = 0;
            for (int n = 1; n <= order; n++) {
                strongest = power[n] > power[strongest] ? n : strongest;
            }
            if (strongest == 0 || power[strongest] < 1) {
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
        double[] residual = fit.departures_mm();
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
                    return n <= ALWAYS || amplitude * amplitude > limit(n, variance, order);
                })
                .toArray();
    }

    /**
     * Mean square of the two coefficients that the residuals show, noise in it, of each undulation up to those that parts
     * often have; 0 where it is fitted, and for the first.
     */
    static double[] seen_mm2(TurnFit fit, int order) {
        int[] fitted = fit.profile().upr();
        double[] departure = fit.departures_mm();
        double[] angle = fit.angles_rad();
        double[] seen = new double[Math.min(order, LOW) + 1];
        for (int n = 2; n < seen.length; n++) {
            seen[n] = contains(fitted, n) ? 0 : power(departure, angle, n) / 2;
        }
        return seen;
    }

    /** Variance at one point of undulations that parts often have, beyond the highest that the readings can tell. */
    public static double unseen_mm2(TurnFit fit, int order) {
        FallOff fallOff = new FallOff();
        double usual_mm2 = coefficientVariance(fit);
        double[] seen_mm2 = seen_mm2(fit, order);
        for (int n = 2; n < seen_mm2.length; n++) {
            int j = fit.profile().indexOf(n);
            if (j < 0) {
                fallOff.saw(n, seen_mm2[n], usual_mm2);
            } else {
                int c = fit.column(j);
                double noise_mm2 =
                        (fit.covariance().getEntry(c, c) + fit.covariance().getEntry(c + 1, c + 1)) / 2;
                fallOff.saw(n, Math.pow(fit.profile().amplitude_mm(n), 2) / 2, noise_mm2);
            }
        }
        return fallOff.beyond_mm2(order, LOW);
    }

    /** Whether parts often have undulations beyond the highest that the readings can tell. */
    public static boolean seesTooFew(int order) {
        return order < LOW;
    }

    /** Variance of the cosine or sine part of an undulation that all readings tell equally well. */
    public static double coefficientVariance(TurnFit fit) {
        return 2 * fit.departureVariance_mm2() / fit.angles_rad().length;
    }

    /**
     * Squared length, in standard deviations of noise, from which an undulation is taken as it is seen. Of those that are
     * always fitted noise makes one in twenty as long. The others are fitted because they stand out, and of so many
     * some always do: noise makes any of them as long in one part of twenty.
     */
    static double stands(int n) {
        return -2 * Math.log(n <= ALWAYS ? FALSE_ALARM_LOW : FALSE_ALARM_LOW / (LOW - ALWAYS));
    }

    /** Squared amplitude that noise of a given variance in each coefficient exceeds but rarely. */
    private static double limit(int n, double variance, int order) {
        return 2 * variance * -Math.log(n <= LOW ? FALSE_ALARM_LOW : FALSE_ALARM / order);
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

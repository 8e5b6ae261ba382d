package sweepbook.analysis.sweep;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import org.hipparchus.util.FastMath;

/**
 * A pass in clicks: the axis stands, steps on by one click, stands again. In time such a motion is no polynomial, but counted
 * in clicks it is even, so the expected count of clicks at each reading takes the place of time.
 *
 * <p>The size of a click is found where the levels of the flank lie on equal steps of the distance from the crest; the counts
 * are then the states of a hidden Markov chain that only goes forward, by a Poisson number of clicks from reading to reading.
 */
final class ClickPath {
    /** Nearer to the crest than this part of the fall, levels are too close to be told apart. */
    private static final double FLANK = 0.08;

    private static final int FEWEST_LEVELS = 6;
    private static final double EQUAL_STEPS = 0.6;
    /** Steps are tried from so many times the usual one down to such a part of it, their frequencies by so small a part. */
    private static final double WIDEST = 1.4;

    private static final double NARROWEST = 0.4;
    private static final double FINENESS = 0.0025;
    private static final int MOST_CLICKS = 240;
    /** Steps of equal chance that make a click: waits are more regular than chance. */
    private static final int PHASES = 4;

    private static final double SPIKE_DENSITY = 0.01;

    private final PassReadings readings;
    private final Rounding rounding;

    private ClickPath(PassReadings readings, Rounding rounding) {
        this.readings = readings;
        this.rounding = rounding;
    }

    /** The pass with clicks for time, or empty where its levels are not equal steps apart. */
    static Optional<PassReadings> of(CleanTrace trace, PassReadings readings, PassFit inTime, Rounding rounding) {
        List<Still> levels = Levels.of(trace, readings.from(), readings.to(), 0.5 * rounding.variance_mm2());
        Lattice lattice = lattice(levels, readings, trace, inTime);
        return lattice == null
                ? Optional.empty()
                : new ClickPath(readings, rounding).decode(inTime.crest_mm(), inTime.bend(), lattice);
    }

    /**
     * Other counts to try after a fit: decoded again with its crest and clicks, and with one click more or less across the
     * crest, where steps hardly show.
     */
    static List<PassReadings> others(PassFit fit, Rounding rounding) {
        PassReadings inClicks = fit.readings();
        double[] even = fit.even();
        double click = FastMath.exp(even[PassLikelihood.SPEED]);
        if (!(click > 0)) {
            return List.of();
        }
        List<PassReadings> others = new ArrayList<>();
        double perClick = click / inClicks.perUnit();
        double offset = even[PassLikelihood.P0] - click * inClicks.middle() / inClicks.perUnit();
        new ClickPath(inClicks, rounding)
                .decode(even[0], even[1], new Lattice(perClick, offset))
                .ifPresent(others::add);
        for (int more = -1; more <= 1; more += 2) {
            double[] counts = new double[inClicks.size()];
            for (int i = 0; i < counts.length; i++) {
                double before = i == 0 ? Double.NEGATIVE_INFINITY : counts[i - 1];
                double shifted = inClicks.count(i) + (inClicks.at_s(i) > fit.crest_s() ? more : 0);
                counts[i] = Math.max(before, shifted);
            }
            others.add(inClicks.counted(counts));
        }
        return others;
    }

    /** Distances from the crest are offset + k step, in the unit of the motion P. */
    private record Lattice(double step, double offset) {}

    private static Lattice lattice(List<Still> levels, PassReadings readings, CleanTrace trace, PassFit fit) {
        double[] u = new double[levels.size()];
        double[] steps = new double[levels.size()];
        int n = 0;
        int s = 0;
        double crossing = fit.crest_s();
        double fall = readings.fall_mm();
        for (Still level : levels) {
            double z = fit.crest_mm() - level.level_mm();
            if (z < FLANK * fall || level.to() - level.from() < 2) {
                continue;
            }
            double middle_s = (trace.time_s()[level.from()] + trace.time_s()[level.to() - 1]) / 2;
            u[n] = Math.signum(middle_s - crossing) * FastMath.sqrt(Math.max(0, z - fit.bend() * z * z));
            if (n > 0 && u[n] * u[n - 1] > 0 && u[n] > u[n - 1]) {
                steps[s++] = u[n] - u[n - 1];
            }
            n++;
        }
        if (n < FEWEST_LEVELS || s < FEWEST_LEVELS / 2) {
            return null;
        }
        double[] sorted = Arrays.copyOf(steps, s);
        Arrays.sort(sorted);
        return lattice(Arrays.copyOf(u, n), sorted[s / 2]);
    }

    /** The widest step, near the usual one, on whose multiples the distances lie, or null where there is none. */
    private static Lattice lattice(double[] u, double usual) {
        // Of a step the distances are phases; from one frequency to the next each turns on by the same angle.
        double lowest = 1 / (WIDEST * usual);
        double apart = FINENESS * lowest;
        double across =
                Arrays.stream(u).max().orElse(0) - Arrays.stream(u).min().orElse(0);
        double highest = Math.min(1 / (NARROWEST * usual), MOST_CLICKS / across);
        double[] cos = new double[u.length];
        double[] sin = new double[u.length];
        double[] turnCos = new double[u.length];
        double[] turnSin = new double[u.length];
        for (int i = 0; i < u.length; i++) {
            cos[i] = Math.cos(2 * Math.PI * u[i] * lowest);
            sin[i] = Math.sin(2 * Math.PI * u[i] * lowest);
            turnCos[i] = Math.cos(2 * Math.PI * u[i] * apart);
            turnSin[i] = Math.sin(2 * Math.PI * u[i] * apart);
        }
        double best = 0;
        Lattice found = null;
        for (double frequency = lowest; frequency < highest; frequency += apart) {
            double c = 0;
            double d = 0;
            for (int i = 0; i < u.length; i++) {
                c += cos[i];
                d += sin[i];
                double turned = cos[i] * turnCos[i] - sin[i] * turnSin[i];
                sin[i] = sin[i] * turnCos[i] + cos[i] * turnSin[i];
                cos[i] = turned;
            }
            double concentration = Math.sqrt(c * c + d * d) / u.length;
            // Halves of the step fit as well: the widest that fits is the click, at the top of its peak.
            boolean samePeak = found != null && frequency - 1 / found.step < 0.5 / across;
            if (concentration > (samePeak ? 1 : 1.08) * best) {
                best = concentration;
                found = new Lattice(1 / frequency, FastMath.atan2(d, c) / (2 * FastMath.PI * frequency));
            }
        }
        return best > EQUAL_STEPS ? found : null;
    }

    /** Expected clicks at each reading, by the forward-backward recursion. */
    private Optional<PassReadings> decode(double crest_mm, double bend, Lattice lattice) {
        int n = readings.size();
        double reach = FastMath.sqrt(1.3 * readings.fall_mm()) + 2 * lattice.step();
        int low = (int) FastMath.floor((-reach - lattice.offset()) / lattice.step());
        int states = (int) FastMath.ceil(2 * reach / lattice.step()) + 1;
        if (states > MOST_CLICKS || states < 3) {
            return Optional.empty();
        }
        double[] level = new double[states];
        for (int k = 0; k < states; k++) {
            double u = lattice.offset() + (low + k) * lattice.step();
            double root = FastMath.sqrt(Math.max(0.05, 1 - 4 * bend * u * u));
            level[k] = crest_mm - 2 * u * u / (1 + root);
        }
        double walked = 2 * FastMath.sqrt(readings.fall_mm()) / lattice.step();
        double perSecond = walked / Math.max(1e-9, readings.time_s(1) - readings.time_s(-1));
        double[][] steps = new double[n][];
        for (int i = 1; i < n; i++) {
            steps[i] = poisson(PHASES * perSecond * Math.max(readings.at_s(i) - readings.at_s(i - 1), 1e-6));
        }
        double[][] seen = new double[n][states];
        int phases = PHASES * states;
        double[][] forward = new double[n][phases];
        for (int i = 0; i < n; i++) {
            double sum = 0;
            for (int k = 0; k < states; k++) {
                double density = Math.exp(rounding.log(readings.pressed_mm[i] - level[k]));
                seen[i][k] = density * FastMath.sqrt(rounding.variance_mm2()) + SPIKE_DENSITY;
            }
            for (int k = 0; k < phases; k++) {
                double before = i == 0 ? 1 : 0;
                for (int j = 0; i > 0 && j < steps[i].length && j <= k; j++) {
                    before += steps[i][j] * forward[i - 1][k - j];
                }
                forward[i][k] = before * seen[i][k / PHASES];
                sum += forward[i][k];
            }
            scale(forward[i], sum);
        }
        double[] clicks = new double[n];
        double[] backward = new double[phases];
        Arrays.fill(backward, 1);
        for (int i = n - 1; i >= 0; i--) {
            double sum = 0;
            double mean = 0;
            for (int k = 0; k < phases; k++) {
                sum += forward[i][k] * backward[k];
                mean += forward[i][k] * backward[k] * (low + k / PHASES);
            }
            clicks[i] = i < n - 1 ? Math.min(mean / sum, clicks[i + 1]) : mean / sum;
            if (i > 0) {
                double[] earlier = new double[phases];
                double total = 0;
                for (int k = 0; k < phases; k++) {
                    for (int j = 0; j < steps[i].length && k + j < phases; j++) {
                        earlier[k] += steps[i][j] * seen[i][(k + j) / PHASES] * backward[k + j];
                    }
                    total += earlier[k];
                }
                scale(earlier, total);
                backward = earlier;
            }
        }
        return clicks[n - 1] - clicks[0] < 3 || Double.isNaN(clicks[0])
                ? Optional.empty()
                : Optional.of(readings.counted(clicks));
    }

    private static void scale(double[] a, double sum) {
        for (int k = 0; k < a.length; k++) {
            a[k] /= sum;
        }
    }

    private static double[] poisson(double mean) {
        // What is left beyond is less than one in ten thousand.
        double[] p = new double[(int) (2 + mean + 4 * FastMath.sqrt(mean))];
        p[0] = FastMath.exp(-mean);
        for (int j = 1; j < p.length; j++) {
            p[j] = p[j - 1] * mean / j;
        }
        return p;
    }
}

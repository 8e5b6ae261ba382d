package sweepbook.analysis.sweep;

import java.util.Arrays;
import org.hipparchus.util.FastMath;

/**
 * The readings of a pass in clicks: the axis stands, steps on by one click, stands again. At which click it stands is hidden; the
 * likelihood of the crest, the contact's curvature and the clicks is summed over all ways to count them: a hidden Markov chain
 * that only goes forward, by the forward-backward recursion, whose derivatives are the expected ones (Fisher's identity).
 */
final class ClickChain {
    /** Readings that are on no level: spikes, and what was read in the midst of a click. */
    private static final double ASTRAY = 0.05;
    /** Ways so much less probable than the others are dropped. */
    private static final double NEGLIGIBLE = 1e-10;

    private final PassReadings readings;
    private final Rounding rounding;
    private final ClickWaits[] waits;
    private final double logFlat;

    /**
     * @param perSecond clicks of the hand
     */
    ClickChain(PassReadings readings, Rounding rounding, double perSecond) {
        this.readings = readings;
        this.rounding = rounding;
        waits = new ClickWaits[readings.size()];
        for (int i = 1; i < waits.length; i++) {
            waits[i] = new ClickWaits(perSecond * Math.max(readings.at_s(i) - readings.at_s(i - 1), 1e-6));
        }
        double range_mm = 2 * Math.max(readings.fall_mm(), 8 * FastMath.sqrt(rounding.variance_mm2()));
        logFlat = FastMath.log(ASTRAY / (1 - ASTRAY) / range_mm);
    }

    /**
     * What the readings say where the crest is p[0], the curvature p[1], and the distances from the crest p[2] + k p[3].
     *
     * @param log of their likelihood, and of what is known of the curvature beforehand
     * @param gradient derivatives of that
     * @param complete its curvature if the counts were known
     * @param counts expected clicks at each reading, never descending
     */
    record Point(double[] p, double log, double[] gradient, double[][] complete, double[] counts) {
        double crest_mm() {
            return p[0];
        }

        double bend() {
            return p[1];
        }

        double click() {
            return p[3];
        }

        double distance(double count) {
            return p[2] + count * p[3];
        }
    }

    /** Where the axis may stand: from the count low on. */
    private static final class Stands {
        final double crest_mm;
        final int low;
        final double[] u;
        final double[] root;
        final double[] level_mm;

        Stands(double[] p, double fall_mm) {
            crest_mm = p[0];
            double reach = FastMath.sqrt(1.3 * fall_mm) + 2 * p[3];
            low = (int) FastMath.floor((-reach - p[2]) / p[3]);
            u = new double[(int) FastMath.ceil(2 * reach / p[3]) + 1];
            root = new double[u.length];
            level_mm = new double[u.length];
            for (int k = 0; k < u.length; k++) {
                u[k] = p[2] + (low + k) * p[3];
                root[k] = FastMath.sqrt(Math.max(1 - PassLikelihood.STEEPEST, 1 - 4 * p[1] * u[k] * u[k]));
                level_mm[k] = p[0] - 2 * u[k] * u[k] / (1 + root[k]);
            }
        }

        /** Those before the crest, where a pass begins. */
        int before() {
            int k = 1;
            while (k < u.length && u[k] <= 0) {
                k++;
            }
            return k;
        }
    }

    Point at(double[] p) {
        Stands stands = new Stands(p, readings.fall_mm());
        int n = readings.size();
        ClickWaits.Band[] forward = new ClickWaits.Band[n];
        double log = 0;
        for (int i = 0; i < n; i++) {
            ClickWaits.Band before =
                    i == 0 ? ClickWaits.anywhere(stands.before()) : waits[i].forward(forward[i - 1], stands.u.length);
            see(before, i, stands);
            double sum = Arrays.stream(before.share()).sum();
            log += FastMath.log(sum);
            forward[i] = before.within(NEGLIGIBLE * sum, 1 / sum);
        }
        double[] gradient = new double[p.length];
        double[][] complete = new double[p.length][p.length];
        double[] counts = new double[n];
        double[] backward = new double[forward[n - 1].share().length];
        Arrays.fill(backward, 1);
        for (int i = n - 1; i >= 0; i--) {
            double mean = stands.low + add(forward[i], backward, i, stands, gradient, complete);
            counts[i] = i < n - 1 ? Math.min(mean, counts[i + 1]) : mean;
            if (i > 0) {
                ClickWaits.Band later = new ClickWaits.Band(forward[i].from(), backward);
                see(later, i, stands);
                double scale = 1 / Arrays.stream(backward).max().orElse(1);
                for (int c = 0; c < backward.length; c++) {
                    backward[c] *= scale;
                }
                backward = waits[i].backward(later, forward[i - 1]);
            }
        }
        PassLikelihood.Bend known = PassLikelihood.Bend.UNKNOWN;
        double off = (p[1] - known.mean()) / known.spread();
        gradient[1] -= off / known.spread();
        complete[1][1] += 1 / (known.spread() * known.spread());
        return new Point(p, log - off * off / 2, gradient, complete, counts);
    }

    /** Weighs where the axis may stand by what was read then. */
    private void see(ClickWaits.Band band, int reading, Stands stands) {
        int last = -1;
        double seen = 0;
        for (int c = 0; c < band.share().length; c++) {
            int k = band.click(c);
            if (k != last) {
                double off_mm = readings.pressed_mm[reading] - stands.level_mm[k];
                seen = (1 - ASTRAY) * (Math.exp(rounding.log(off_mm)) + Math.exp(logFlat));
                last = k;
            }
            band.share()[c] *= seen;
        }
    }

    /** Adds what one reading says; the expected count of its clicks. */
    private double add(
            ClickWaits.Band at, double[] backward, int reading, Stands stands, double[] gradient, double[][] complete) {
        double sum = 0;
        for (int c = 0; c < backward.length; c++) {
            sum += at.share()[c] * backward[c];
        }
        double mean = 0;
        for (int c = 0; c < backward.length; ) {
            int k = at.click(c);
            double share = 0;
            for (; c < backward.length && at.click(c) == k; c++) {
                share += at.share()[c] * backward[c] / sum;
            }
            mean += share * k;
            Rounding.Said said = rounding.said(readings.pressed_mm[reading] - stands.level_mm[k]);
            double belongs = share / (1 + Math.exp(logFlat - said.log()));
            double drop_mm = stands.crest_mm - stands.level_mm[k];
            double perOffset = -2 * stands.u[k] / stands.root[k];
            double[] d = {
                1, -drop_mm * drop_mm / stands.root[k], perOffset, perOffset * (stands.low + k),
            };
            for (int a = 0; a < d.length; a++) {
                gradient[a] += belongs * said.score() * d[a];
                for (int b = 0; b < d.length; b++) {
                    complete[a][b] += belongs * said.information() * d[a] * d[b];
                }
            }
        }
        return mean;
    }
}

package sweepbook.analysis.runout.fit;

import java.util.Arrays;
import java.util.Comparator;
import java.util.TreeSet;
import java.util.stream.IntStream;
import org.hipparchus.complex.Complex;
import org.hipparchus.transform.DftNormalization;
import org.hipparchus.transform.FastFourierTransformer;
import org.hipparchus.transform.TransformType;
import sweepbook.analysis.runout.angle.Turning;
import sweepbook.analysis.uncertainty.Finding;

/**
 * The speed of an even turning, found in the readings: the longest-known trap is a part whose oval or lobes repeat more
 * often than it turns, so every strong frequency is tried with its halves and thirds, and the shortest period that
 * explains the readings as well as its multiples do is taken (Schwarz's criterion).
 */
public final class TurnPeriod {
    private static final int MOST_BINS = 8192;
    private static final double MANY_TURNS = 120;
    private static final int MOST_ORDER = 12;
    private static final int LEAST_BINS_PER_TURN = 10;
    private static final int PEAKS = 3;
    private static final int LINES_A_TURN = 6;
    /** A slower swing is drift. */
    private static final double LEAST_LINE_TURNS = 1 / 3.0;
    /** Undulations looked at, counted on the strongest frequency. */
    private static final int ORDER = 4;
    /** By so much a period must explain the readings better than none, on the scale of Schwarz's criterion. */
    private static final double SURE = 30;
    /** Fewer turns prove no period. */
    public static final double LEAST_TURNS = 1.9;

    private TurnPeriod() {}

    /** Angular speed in rad/s. */
    public static Finding<Double> speed_rad_per_s(Samples samples) {
        Samples bins = binned(samples, Math.min(samples.size(), MOST_BINS));
        double[] power = spectrum(detrended(atEqualSteps(bins)));
        // The spectrum ends at two bins a turn.
        double turnsALine = bins.size() / 2.0 / power.length;
        int fastest = 2 * power.length / LEAST_BINS_PER_TURN;
        int[] lines = peaks(power, (int) Math.ceil(LEAST_LINE_TURNS / turnsALine), fastest);
        double beyond = Arrays.stream(power, fastest, power.length).max().orElseThrow();
        if (lines.length == 0 || power[lines[0]] < beyond) {
            if (bins.size() < samples.size()) {
                // Means of neighbours may hide a turn: part of the trace needs no means.
                return speed_rad_per_s(samples.first(samples.size() / 4));
            }
            return Finding.notDetermined("the readings swing faster than ten of them a turn can follow, or there is"
                    + " nothing but noise; turn more slowly, or mark the turns");
        }
        double[] peaks = Arrays.stream(lines).mapToDouble(k -> k * turnsALine).toArray();
        if (peaks[0] > MANY_TURNS) {
            // So many turns tell the speed; the fit of the motion follows it through the rest.
            int head = (int) (samples.size() * MANY_TURNS / 2 / peaks[0]);
            return speed_rad_per_s(samples.first(head));
        }
        double span = samples.to_s() - samples.from_s();
        Samples few = binned(samples, (int) Math.min(bins.size(), Math.max(512, 4 * ORDER * peaks[0])));
        double best = 0;
        double bestScore = Double.POSITIVE_INFINITY;
        TreeSet<Long> seen = new TreeSet<>();
        for (double peak : peaks) {
            for (int part = 1; part <= 4; part++) {
                double turns = peak / part;
                if (turns < 0.7 || !seen.add(Math.round(turns * 20))) {
                    continue;
                }
                int order = (int) Math.max(2, Math.min(Math.min(ORDER * peaks[0] / turns, 8 * turns), MOST_ORDER));
                TurnFit fit = line(few, order, 2 * Math.PI * turns / span);
                double rss = fit.scatter_mm() * fit.scatter_mm() * fit.degreesOfFreedom();
                double score = few.size() * Math.log(rss) + (2 * order) * Math.log(few.size());
                if (score < bestScore) {
                    bestScore = score;
                    Turning line = fit.turning();
                    best = line.knotSpeed_rad_per_s(0);
                }
            }
        }
        if (bestScore > noPeriod(few) - SURE) {
            return Finding.notDetermined("no turning stands out of the noise: the part does not turn, or its runout is"
                    + " below what these readings can show");
        }
        if (best * span < 2 * Math.PI * LEAST_TURNS) {
            return Finding.notDetermined(
                    "no even turning of two turns or more could be made out in the readings; turn twice or more at even"
                            + " speed, or mark the turns");
        }
        return Finding.found(best);
    }

    /** The score of a straight line alone. */
    private static double noPeriod(Samples samples) {
        double rss = 0;
        for (double v : detrended(samples.reading_mm())) {
            rss += v * v;
        }
        return samples.size() * Math.log(rss);
    }

    private static TurnFit line(Samples samples, int order, double speed_rad_per_s) {
        int[] upr = new int[order];
        for (int j = 0; j < order; j++) {
            upr[j] = j + 1;
        }
        double span = samples.to_s() - samples.from_s();
        double stiff = 1e-9 * Math.pow(speed_rad_per_s, 3);
        return TurnFit.ofMotion(
                samples,
                upr,
                1,
                Turning.even(samples.from_s(), samples.from_s() + span, speed_rad_per_s),
                Anchors.start(samples.from_s()),
                stiff,
                TurnFit.Detail.PLAIN);
    }

    /** Means over equal bins of time; empty bins are left out. */
    private static Samples binned(Samples samples, int count) {
        if (count >= samples.size()) {
            return samples;
        }
        double[] time = new double[count];
        double[] reading = new double[count];
        double from = samples.from_s();
        double width = (samples.to_s() - from) / count;
        int used = 0;
        for (int i = 0; i < samples.size(); ) {
            int bin = (int) Math.min(count - 1, (samples.time_s()[i] - from) / width);
            double t = 0;
            double r = 0;
            int n = 0;
            for (; i < samples.size() && Math.min(count - 1, (samples.time_s()[i] - from) / width) < bin + 1; i++) {
                t += samples.time_s()[i];
                r += samples.reading_mm()[i];
                n++;
            }
            time[used] = t / n;
            reading[used++] = r / n;
        }
        return new Samples(Arrays.copyOf(time, used), Arrays.copyOf(reading, used), width, samples.step_mm());
    }

    /** Values at equal steps of time, by straight lines between the samples. */
    private static double[] atEqualSteps(Samples samples) {
        double[] out = new double[samples.size()];
        int k = 0;
        for (int i = 0; i < out.length; i++) {
            double t = samples.from_s() + (samples.to_s() - samples.from_s()) * i / (out.length - 1);
            while (k < out.length - 2 && samples.time_s()[k + 1] < t) {
                k++;
            }
            double gap = samples.time_s()[k + 1] - samples.time_s()[k];
            double share = gap > 0 ? (t - samples.time_s()[k]) / gap : 0;
            out[i] = (1 - share) * samples.reading_mm()[k] + share * samples.reading_mm()[k + 1];
        }
        return out;
    }

    /** Power against frequency, from none to the fastest that the values can show, in steps of a sixth of a turn or less. */
    private static double[] spectrum(double[] r) {
        double[] padded = Arrays.copyOf(r, 2 * Integer.highestOneBit(LINES_A_TURN * r.length));
        Complex[] lines =
                new FastFourierTransformer(DftNormalization.STANDARD).transform(padded, TransformType.FORWARD);
        double[] power = new double[padded.length / 2];
        for (int k = 0; k < power.length; k++) {
            power[k] = Math.pow(lines[k].getReal(), 2) + Math.pow(lines[k].getImaginary(), 2);
        }
        return power;
    }

    /** The strongest lines within two limits, the strongest first. */
    private static int[] peaks(double[] power, int least, int most) {
        return IntStream.rangeClosed(least, most)
                .filter(k -> power[k] >= power[k - 1] && power[k] >= power[k + 1])
                .boxed()
                .sorted(Comparator.comparingDouble((Integer k) -> power[k]).reversed())
                .limit(PEAKS)
                .mapToInt(k -> k)
                .toArray();
    }

    private static double[] detrended(double[] r) {
        int n = r.length;
        double mean = 0;
        double slope = 0;
        double sxx = 0;
        for (double v : r) {
            mean += v / n;
        }
        for (int i = 0; i < n; i++) {
            double x = i - (n - 1) / 2.0;
            slope += x * (r[i] - mean);
            sxx += x * x;
        }
        double[] out = new double[n];
        for (int i = 0; i < n; i++) {
            out[i] = r[i] - mean - slope / sxx * (i - (n - 1) / 2.0);
        }
        return out;
    }
}

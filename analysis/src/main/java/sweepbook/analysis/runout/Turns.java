package sweepbook.analysis.runout;

import java.util.Arrays;
import sweepbook.analysis.runout.fit.Profile;
import sweepbook.analysis.runout.fit.Samples;
import sweepbook.analysis.runout.fit.TurnFit;
import sweepbook.analysis.uncertainty.Estimate;
import sweepbook.analysis.uncertainty.Finding;

/** The readings laid out turn by turn, from the first reading on. */
final class Turns {
    private static final int BINS = 40;
    private static final int MOST_UNROLLED = 20_000;
    private final Samples all;
    private final boolean[] keep;
    private final double[] angle_rad;
    private final TurnFit fit;
    private final double[] table;
    private final double mean_mm;
    private final double direction;
    private final double closing_rad;

    /** @param closing_rad a trace that ends by less than this before the turn is full holds it */
    Turns(Samples all, boolean[] keep, double[] angle_rad, double closing_rad, TurnFit fit, Profile profile) {
        this.closing_rad = closing_rad;
        this.all = all;
        this.keep = keep;
        this.angle_rad = angle_rad;
        this.fit = fit;
        table = profile.sampled(Figures.STEPS);
        mean_mm = profile.mean_mm();
        direction = Math.signum(angle_rad[angle_rad.length - 1] - angle_rad[0]);
    }

    double span_rad() {
        return Math.abs(angle_rad[angle_rad.length - 1] - angle_rad[0]);
    }

    int count() {
        return (int) Math.floor((span_rad() + closing_rad) / (2 * Math.PI));
    }

    private int turnOf(int i) {
        return (int) Math.floor(direction * (angle_rad[i] - angle_rad[0]) / (2 * Math.PI));
    }

    /** Of all whole turns the greatest. */
    double rawFim_mm() {
        double greatest = 0;
        double max = Double.NEGATIVE_INFINITY;
        double min = Double.POSITIVE_INFINITY;
        int turn = 0;
        int turns = count();
        for (int i = 0; i < all.size() && turn < turns; i++) {
            int now = turnOf(i);
            if (now > turn) {
                turn = now;
                max = Double.NEGATIVE_INFINITY;
                min = Double.POSITIVE_INFINITY;
            }
            if (turn < turns) {
                max = Math.max(max, all.reading_mm()[i]);
                min = Math.min(min, all.reading_mm()[i]);
                greatest = Math.max(greatest, max - min);
            }
        }
        return greatest;
    }

    private double profile_mm(double angle_rad) {
        double at = angle_rad / (2 * Math.PI);
        at = (at - Math.floor(at)) * table.length;
        int i = (int) at;
        double share = at - i;
        return (1 - share) * table[i % table.length] + share * table[(i + 1) % table.length];
    }

    private static int binOf(double angle_rad) {
        double folded = angle_rad / (2 * Math.PI);
        return Math.min(BINS - 1, (int) ((folded - Math.floor(folded)) * BINS));
    }

    private double departure_mm(int i) {
        return all.reading_mm()[i] - fit.drift_mm(all.time_s()[i]) - profile_mm(angle_rad[i]);
    }

    Finding<TurnScatter> scatter() {
        int turns = count();
        if (turns < 2) {
            return Finding.notDetermined("one turn only; turn twice or more to see how well turns repeat");
        }
        double[][] sum = new double[BINS][turns];
        int[][] n = new int[BINS][turns];
        for (int i = 0; i < all.size(); i++) {
            int turn = turnOf(i);
            if (keep[i] && turn >= 0 && turn < turns) {
                int bin = binOf(angle_rad[i]);
                sum[bin][turn] += departure_mm(i);
                n[bin][turn]++;
            }
        }
        double squares = 0;
        int degrees = 0;
        double widest = 0;
        double ofWidest = 0;
        for (int bin = 0; bin < BINS; bin++) {
            double[] means = new double[turns];
            int count = 0;
            for (int turn = 0; turn < turns; turn++) {
                if (n[bin][turn] > 0) {
                    means[count++] = sum[bin][turn] / n[bin][turn];
                }
            }
            if (count < 2) {
                continue;
            }
            means = Arrays.copyOf(means, count);
            double mean = Arrays.stream(means).sum() / count;
            double most = mean;
            double least = mean;
            for (double m : means) {
                squares += (m - mean) * (m - mean);
                most = Math.max(most, m);
                least = Math.min(least, m);
            }
            degrees += count - 1;
            if (most - least > widest) {
                widest = most - least;
                ofWidest = 2.0 * count / Arrays.stream(n[bin]).sum();
            }
        }
        return degrees == 0
                ? Finding.notDetermined("no angle was read in two turns")
                : Finding.found(new TurnScatter(
                        spread(Math.sqrt(squares / degrees), degrees),
                        new Estimate(widest, fit.scatter_mm() * Math.sqrt(ofWidest), fit.degreesOfFreedom())));
    }

    /** A standard deviation and its own (JCGM 100:2008, E.4.3, for values near normal). */
    private static Estimate spread(double standardDeviation, int degreesOfFreedom) {
        return new Estimate(standardDeviation, standardDeviation / Math.sqrt(2.0 * degreesOfFreedom), degreesOfFreedom);
    }

    Unrolled unrolled() {
        int stride = 1 + all.size() / MOST_UNROLLED;
        int n = (all.size() + stride - 1) / stride;
        double[] angle = new double[n];
        double[] departure = new double[n];
        int count = 0;
        for (int i = 0; i < all.size(); i += stride) {
            if (keep[i]) {
                angle[count] = Math.toDegrees(angle_rad[i]);
                departure[count++] = all.reading_mm()[i] - mean_mm - fit.drift_mm(all.time_s()[i]);
            }
        }
        return new Unrolled(Arrays.copyOf(angle, count), Arrays.copyOf(departure, count));
    }
}

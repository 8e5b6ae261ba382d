package sweepbook.analysis.sweep;

import java.util.Locale;
import org.hipparchus.util.FastMath;
import sweepbook.analysis.uncertainty.Estimate;
import sweepbook.analysis.uncertainty.Finding;

/**
 * The level of a stretch in which nothing is meant to move: the longest tail of it that does not creep, its mean, and
 * its uncertainty under noise that hangs together from reading to reading.
 */
final class DwellLevel {
    /** A level that goes on moving by more than one resolution in five seconds is no level. */
    static final double CREEP_s = 5;

    private static final double SEEN = 2.5;
    private static final int FEWEST = 4;
    private static final int CUTS = 12;

    private final CleanTrace trace;

    DwellLevel(CleanTrace trace) {
        this.trace = trace;
    }

    /** The part of a stretch that stands, from index on. */
    record Level(Estimate level, int from, int to) {}

    /** The level of all readings of a stretch, creeping or not. */
    Level all(int from, int to) {
        Sums sums = new Sums(from, to);
        return new Level(sums.level(), from, to);
    }

    Finding<Level> settled(int from, int to) {
        if (to - from < FEWEST) {
            return Finding.notDetermined("only " + (to - from) + " readings at rest: hold still for longer");
        }
        double q = trace.resolution_mm();
        int start = from;
        for (int cut = 0; cut < CUTS; cut++) {
            start = from + (to - from) * cut / (CUTS + 4);
            if (to - start < FEWEST) {
                break;
            }
            Sums sums = new Sums(start, to);
            double change = Math.abs(sums.slope) * sums.seconds;
            if (change <= Math.max(SEEN * sums.slopeU * sums.seconds, 0.1 * q) && !bent(start, to, sums)) {
                return Finding.found(new Level(sums.level(), start, to));
            }
        }
        Sums tail = new Sums(start, to);
        double rate = tail.slope;
        if (Math.abs(rate) * CREEP_s > Math.max(q, 1e-6)) {
            return Finding.notDetermined(String.format(
                    Locale.ROOT,
                    "the reading still creeps by %.4f mm in %.0f s: hold still until it stands",
                    Math.abs(rate) * CREEP_s,
                    CREEP_s));
        }
        Estimate level = tail.level();
        double creep = Math.abs(rate) * tail.seconds / FastMath.sqrt(12);
        return Finding.found(
                new Level(new Estimate(level.value(), FastMath.hypot(level.stdU(), creep), tail.freedom()), start, to));
    }

    /** Whether the first third stands elsewhere than the rest. */
    private boolean bent(int from, int to, Sums whole) {
        int third = from + (to - from) / 3;
        if (third - from < 2) {
            return false;
        }
        Sums head = new Sums(from, third);
        Sums tail = new Sums(third, to);
        double u = FastMath.sqrt(whole.perReading_mm2 * whole.inflation * (1 / head.n + 1 / tail.n));
        return Math.abs(head.mean - tail.mean) > Math.max((SEEN + 0.5) * u, 0.1 * trace.resolution_mm());
    }

    private final class Sums {
        final double n;
        final double mean;
        final double slope;
        final double slopeU;
        final double seconds;
        final double perReading_mm2;
        final double inflation;

        Sums(int from, int to) {
            double[] t = trace.time_s();
            double[] y = trace.pressed_mm();
            boolean[] spike = trace.spike();
            double count = 0;
            double sum = 0;
            double sumT = 0;
            for (int i = from; i < to; i++) {
                if (!spike[i]) {
                    count++;
                    sum += y[i] - y[from];
                    sumT += t[i] - t[from];
                }
            }
            n = Math.max(1, count);
            double offset = sum / n;
            double middle = sumT / n;
            double tt = 0;
            double ty = 0;
            for (int i = from; i < to; i++) {
                if (!spike[i]) {
                    double dt = t[i] - t[from] - middle;
                    tt += dt * dt;
                    ty += dt * (y[i] - y[from] - offset);
                }
            }
            slope = tt > 0 ? ty / tt : 0;
            double squares = 0;
            double products = 0;
            double before = 0;
            for (int i = from; i < to; i++) {
                if (!spike[i]) {
                    double r = y[i] - y[from] - offset - slope * (t[i] - t[from] - middle);
                    squares += r * r;
                    products += r * before;
                    before = r;
                }
            }
            double q = trace.resolution_mm();
            perReading_mm2 = Math.max(squares / Math.max(1, n - 2), q * q / 12);
            double lagOne = squares > 0 && n > 8 ? Math.max(0, Math.min(0.95, products / squares)) : 0;
            // A needle that stands on one digit is not noise that averages out; chance correlation is not memory.
            double seen = lagOne > 2 / FastMath.sqrt(n) ? lagOne : 0;
            inflation = (1 + seen) / (1 - seen);
            mean = y[from] + offset;
            seconds = t[to - 1] - t[from];
            slopeU = tt > 0 ? FastMath.sqrt(perReading_mm2 * inflation / tt) : 0;
        }

        double freedom() {
            return Math.max(1, n / inflation - 1);
        }

        Estimate level() {
            double q = trace.resolution_mm();
            double averaged = perReading_mm2 * inflation / n;
            // Noise below a third of the step leaves rounding errors that all readings share.
            double noise = FastMath.sqrt(Math.max(0, perReading_mm2 - q * q / 12));
            double shared = q * q / 12 * FastMath.exp(-4 * FastMath.PI * FastMath.PI * noise * noise / (q * q + 1e-30));
            return new Estimate(mean, FastMath.sqrt(averaged + shared), freedom());
        }
    }
}

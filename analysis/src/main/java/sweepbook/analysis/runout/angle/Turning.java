package sweepbook.analysis.runout.angle;

import java.util.Arrays;

/**
 * The angle turned through as a function of time: a cubic between knots that carry angle and speed, a straight line
 * beyond the outer ones. Radians, counted in the direction of turning.
 */
public final class Turning {
    private final double[] knot_s;
    private final double[] angle_rad;
    private final double[] speed_rad_per_s;

    public Turning(double[] knot_s, double[] angle_rad, double[] speed_rad_per_s) {
        this.knot_s = knot_s.clone();
        this.angle_rad = angle_rad.clone();
        this.speed_rad_per_s = speed_rad_per_s.clone();
    }

    /** One speed from start to end, the angle zero at the start. */
    public static Turning even(double from_s, double to_s, double speed_rad_per_s) {
        return new Turning(
                new double[] {from_s, to_s},
                new double[] {0, speed_rad_per_s * (to_s - from_s)},
                new double[] {speed_rad_per_s, speed_rad_per_s});
    }

    public int knots() {
        return knot_s.length;
    }

    public double knot_s(int k) {
        return knot_s[k];
    }

    public double knotAngle_rad(int k) {
        return angle_rad[k];
    }

    public double knotSpeed_rad_per_s(int k) {
        return speed_rad_per_s[k];
    }

    /** The interval that holds the time, the first or last one for times outside; searches from the hint. */
    public int interval(double time_s, int hint) {
        int k = Math.max(0, Math.min(hint, knot_s.length - 2));
        while (k < knot_s.length - 2 && time_s >= knot_s[k + 1]) {
            k++;
        }
        while (k > 0 && time_s < knot_s[k]) {
            k--;
        }
        return k;
    }

    private int interval(double time_s) {
        int found = Arrays.binarySearch(knot_s, time_s);
        return Math.max(0, Math.min(found < 0 ? -found - 2 : found, knot_s.length - 2));
    }

    public double angle_rad(double time_s) {
        return angle_rad(time_s, interval(time_s));
    }

    /** As {@link #angle_rad(double)}, where the interval is known. */
    public double angle_rad(double time_s, int k) {
        int last = knot_s.length - 1;
        if (time_s <= knot_s[0]) {
            return angle_rad[0] + speed_rad_per_s[0] * (time_s - knot_s[0]);
        }
        if (time_s >= knot_s[last]) {
            return angle_rad[last] + speed_rad_per_s[last] * (time_s - knot_s[last]);
        }
        double h = knot_s[k + 1] - knot_s[k];
        double u = (time_s - knot_s[k]) / h;
        double v = 1 - u;
        return v * v * ((1 + 2 * u) * angle_rad[k] + u * h * speed_rad_per_s[k])
                + u * u * ((1 + 2 * v) * angle_rad[k + 1] - v * h * speed_rad_per_s[k + 1]);
    }

    /** The angles at ascending times. */
    public double[] angles_rad(double[] time_s) {
        double[] angles = new double[time_s.length];
        int k = 0;
        for (int i = 0; i < angles.length; i++) {
            k = interval(time_s[i], k);
            angles[i] = angle_rad(time_s[i], k);
        }
        return angles;
    }

    public double speed_rad_per_s(double time_s) {
        int k = interval(time_s);
        int last = knot_s.length - 1;
        if (time_s <= knot_s[0] || time_s >= knot_s[last]) {
            return speed_rad_per_s[time_s <= knot_s[0] ? 0 : last];
        }
        double h = knot_s[k + 1] - knot_s[k];
        double u = (time_s - knot_s[k]) / h;
        double v = 1 - u;
        return 6 * u * v * (angle_rad[k + 1] - angle_rad[k]) / h
                + v * (1 - 3 * u) * speed_rad_per_s[k]
                + u * (1 - 3 * v) * speed_rad_per_s[k + 1];
    }

    /** The same motion on fresh knots: the outer times, and between them about one for every step of angle. */
    public Turning withKnotsEvery(double step_rad, double from_s, double to_s) {
        double[] at = new double[knotCount(step_rad, from_s, to_s)];
        double from_rad = angle_rad(from_s);
        double span_rad = angle_rad(to_s) - from_rad;
        double[] angle = new double[at.length];
        double[] speed = new double[at.length];
        for (int k = 0; k < at.length; k++) {
            at[k] = k == at.length - 1 ? to_s : timeAt(from_rad + span_rad * k / (at.length - 1), from_s, to_s);
            angle[k] = angle_rad(at[k]);
            speed[k] = speed_rad_per_s(at[k]);
        }
        return new Turning(at, angle, speed);
    }

    private int knotCount(double step_rad, double from_s, double to_s) {
        return 1 + (int) Math.max(1, Math.ceil(Math.abs(angle_rad(to_s) - angle_rad(from_s)) / step_rad));
    }

    /** When the angle is reached, by bisection; the motion goes forward. */
    private double timeAt(double wanted_rad, double from_s, double to_s) {
        double lo = from_s;
        double hi = to_s;
        for (int i = 0; i < 60 && hi - lo > 1e-12 * (to_s - from_s); i++) {
            double mid = (lo + hi) / 2;
            if (angle_rad(mid) < wanted_rad) {
                lo = mid;
            } else {
                hi = mid;
            }
        }
        return (lo + hi) / 2;
    }
}

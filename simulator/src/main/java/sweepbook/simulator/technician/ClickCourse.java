package sweepbook.simulator.technician;

import java.util.Random;
import sweepbook.simulator.machine.Course;

/** Jog clicks: the axis steps by one click at a time, and stands in between. */
final class ClickCourse implements Course {
    private final double[] step;
    private final double[] from_s;
    private final double rise_s;
    private final double duration_s;

    private ClickCourse(double[] step, double[] from_s, double rise_s, double duration_s) {
        this.step = step;
        this.from_s = from_s;
        this.rise_s = rise_s;
        this.duration_s = duration_s;
    }

    /**
     * @param clicks how many, at least one
     * @param click size of one, signed
     * @param wait_s usual time from click to click
     * @param pause share of the clicks after which the hand pauses for some waits
     * @param stick share of the clicks that the slide does not follow until the next one; the last one is always followed
     */
    static ClickCourse of(int clicks, double click, double wait_s, double pause, double stick, Random random) {
        double rise_s = Math.min(0.06, wait_s / 4);
        double[] step = new double[clicks];
        double[] from_s = new double[clicks];
        double now_s = 0;
        double owed = 0;
        for (int i = 0; i < clicks; i++) {
            from_s[i] = now_s;
            owed += click;
            if (i == clicks - 1 || random.nextDouble() >= stick) {
                step[i] = owed;
                owed = 0;
            }
            now_s += wait_s * (0.7 + 0.6 * random.nextDouble());
            if (random.nextDouble() < pause) {
                now_s += wait_s * (2 + 4 * random.nextDouble());
            }
        }
        return new ClickCourse(step, from_s, rise_s, now_s);
    }

    @Override
    public double duration_s() {
        return duration_s;
    }

    @Override
    public double travel(double since_s) {
        double way = 0;
        for (int i = 0; i < step.length && from_s[i] < since_s; i++) {
            double u = (since_s - from_s[i]) / rise_s;
            way += u >= 1 ? step[i] : step[i] * (1 - Math.cos(Math.PI * u)) / 2;
        }
        return way;
    }
}

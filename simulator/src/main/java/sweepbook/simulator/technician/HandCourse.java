package sweepbook.simulator.technician;

import java.util.Random;
import sweepbook.simulator.machine.Course;

/**
 * A continuous move by hand or by a held jog key: it gathers speed, wanders in speed where the hand is uneven, and comes to
 * rest; it never turns back.
 */
final class HandCourse implements Course {
    private final double travel;
    private final double duration_s;
    private final double ramp;
    private final double[] wander;
    private final double[] phase_rad;

    /**
     * @param travel the whole travel, signed
     * @param duration_s time that it takes
     * @param ramp share of the time spent gathering speed, and again slowing down; above 0, at most 0.5
     * @param unevenness greatest relative departure of the speed from even, 0 for even, below 1
     */
    HandCourse(double travel, double duration_s, double ramp, double unevenness, Random random) {
        this.travel = travel;
        this.duration_s = duration_s;
        this.ramp = ramp;
        this.wander = new double[unevenness == 0 ? 0 : 3];
        this.phase_rad = new double[wander.length];
        double sum = 0;
        for (int k = 0; k < wander.length; k++) {
            wander[k] = random.nextDouble();
            phase_rad[k] = 2 * Math.PI * random.nextDouble();
            sum += wander[k];
        }
        for (int k = 0; k < wander.length; k++) {
            wander[k] *= unevenness / sum;
        }
    }

    @Override
    public double duration_s() {
        return duration_s;
    }

    @Override
    public double travel(double since_s) {
        return travel * ramped(wandered(since_s / duration_s));
    }

    /** Integral of the speed 1 + sum of b_k sin(2 pi k u + phase_k), which is 1 over the whole. */
    private double wandered(double u) {
        double way = u;
        for (int k = 0; k < wander.length; k++) {
            double turn_rad = 2 * Math.PI * (k + 1);
            way -= wander[k] / turn_rad * (Math.cos(turn_rad * u + phase_rad[k]) - Math.cos(phase_rad[k]));
        }
        return way;
    }

    /** Integral of a speed that rises and falls as half a cosine wave at the ends, scaled to 1 over the whole. */
    private double ramped(double u) {
        if (u > 0.5) {
            return 1 - ramped(1 - u);
        }
        double way = u < ramp ? u / 2 - ramp / (2 * Math.PI) * Math.sin(Math.PI * u / ramp) : u - ramp / 2;
        return way / (1 - ramp);
    }
}

package sweepbook.analysis.sweep;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Arrays;
import java.util.Random;
import org.junit.jupiter.api.Test;

class HandMotionTest {
    private static final int KNOTS = 20;
    private final double[] time = {-1, -0.73, -0.1, 0, 0.2, 0.55, 1};

    /** Law: the integral of a positive speed never turns back. */
    @Test
    void neverTurnsBack() {
        Random random = new Random(11);
        for (int trial = 0; trial < 50; trial++) {
            double[] u = distances(parameters(random));
            for (int i = 1; i < u.length; i++) {
                assertTrue(u[i] > u[i - 1], "trial " + trial + " of seed 11");
            }
        }
    }

    /** Law: an even speed covers its distance in proportion to time, from its place in the middle. */
    @Test
    void isAStraightLineWhereTheSpeedIsEven() {
        double[] p = new double[1 + KNOTS];
        Arrays.fill(p, Math.log(2));
        p[0] = 0.3;
        double[] u = distances(p);
        for (int i = 0; i < u.length; i++) {
            assertEquals(0.3 + 2 * time[i], u[i], 1e-12);
        }
    }

    /** Law: the derivatives are the limits of differences. */
    @Test
    void knowsItsDerivatives() {
        Random random = new Random(12);
        double[] p = parameters(random);
        HandMotion motion = new HandMotion(time, KNOTS);
        double step = 1e-6;
        for (int k = 0; k < KNOTS; k++) {
            double[] more = p.clone();
            double[] less = p.clone();
            more[1 + k] += step;
            less[1 + k] -= step;
            double[] above = distances(more);
            double[] below = distances(less);
            motion.set(p, 0, 0);
            for (int cell = 0; cell < motion.cells(); cell++) {
                for (int i = motion.first(cell); i < motion.first(cell + 1); i++) {
                    assertEquals((above[i] - below[i]) / (2 * step), byKnot(motion, cell, i, k), 1e-8);
                }
            }
        }
    }

    /** The derivative of P at a reading of a cell by the logarithm of speed at a knot. */
    static double byKnot(HandMotion motion, int cell, int reading, int knot) {
        boolean after = cell >= motion.middle();
        int near = motion.nearKnot(cell);
        if (knot == near) {
            return motion.near(cell) + motion.within(reading) * motion.nearWay(cell);
        }
        if (knot == motion.farKnot(cell)) {
            return motion.far(cell) + motion.within(reading) * motion.farWay(cell);
        }
        boolean passed = after
                ? knot >= motion.firstPassed(true) && knot < near
                : knot <= motion.firstPassed(false) && knot > near;
        return passed ? motion.passed(knot, after) : 0;
    }

    private static double[] parameters(Random random) {
        double[] p = new double[1 + KNOTS];
        for (int i = 0; i < p.length; i++) {
            p[i] = random.nextGaussian();
        }
        return p;
    }

    private double[] distances(double[] p) {
        HandMotion motion = new HandMotion(time, KNOTS);
        motion.set(p, 0, 0);
        double[] u = new double[time.length];
        for (int cell = 0; cell < motion.cells(); cell++) {
            for (int i = motion.first(cell); i < motion.first(cell + 1); i++) {
                u[i] = motion.distance(cell, i);
            }
        }
        return u;
    }
}

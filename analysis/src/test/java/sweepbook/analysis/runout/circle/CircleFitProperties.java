package sweepbook.analysis.runout.circle;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.List;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.DoubleRange;
import net.jqwik.api.constraints.Size;

/** Law: no reference circle is better than the one found, all candidates tried. */
class CircleFitProperties {
    private static double[] angles(int n, double shift) {
        double[] angle = new double[n];
        for (int i = 0; i < n; i++) {
            angle[i] = 2 * Math.PI * (i + 0.3 * Math.sin(7.0 * i + shift)) / n;
        }
        return angle;
    }

    private static double width(double[] angle, double[] r, double x, double y) {
        double max = Double.NEGATIVE_INFINITY;
        double min = Double.POSITIVE_INFINITY;
        for (int i = 0; i < r.length; i++) {
            double d = r[i] - x * Math.cos(angle[i]) - y * Math.sin(angle[i]);
            max = Math.max(max, d);
            min = Math.min(min, d);
        }
        return max - min;
    }

    /** Brute force: at the best centre two pairs of points are equally far from it; all are tried. */
    @Property(tries = 400)
    void theMinimumZoneIsTheBestOfAllVertices(
            @ForAll @Size(9) List<@DoubleRange(min = -1, max = 1) Double> radii,
            @ForAll @DoubleRange(min = 0, max = 6) double shift) {
        int n = radii.size();
        double[] angle = angles(n, shift);
        double[] r = radii.stream().mapToDouble(Double::doubleValue).toArray();
        double best = Double.POSITIVE_INFINITY;
        for (int a = 0; a < n; a++) {
            for (int b = a + 1; b < n; b++) {
                for (int c = 0; c < n; c++) {
                    for (int d = c + 1; d < n; d++) {
                        // Centre at which points a, b are equally far, and c, d are.
                        double a1 = Math.cos(angle[a]) - Math.cos(angle[b]);
                        double a2 = Math.sin(angle[a]) - Math.sin(angle[b]);
                        double b1 = Math.cos(angle[c]) - Math.cos(angle[d]);
                        double b2 = Math.sin(angle[c]) - Math.sin(angle[d]);
                        double det = a1 * b2 - a2 * b1;
                        if (Math.abs(det) > 1e-9) {
                            double p = r[a] - r[b];
                            double q = r[c] - r[d];
                            best = Math.min(best, width(angle, r, (p * b2 - a2 * q) / det, (a1 * q - p * b1) / det));
                        }
                    }
                }
            }
        }
        Roundness zone = CircleFit.ofRunout(ReferenceCircle.MINIMUM_ZONE, angle, r);
        assertEquals(best, zone.outOfRoundness_mm(), 1e-9);
    }

    /** The circle outside is held by two or three points: of all such circles that hold every point, the smallest. */
    @Property(tries = 400)
    void theCircumscribedAndInscribedCirclesAreTheBestOfAllVertices(
            @ForAll @Size(8) List<@DoubleRange(min = -1, max = 1) Double> radii,
            @ForAll @DoubleRange(min = 0, max = 6) double shift) {
        int n = radii.size();
        double[] angle = angles(n, shift);
        double[] r = radii.stream().mapToDouble(Double::doubleValue).toArray();
        for (int side : new int[] {+1, -1}) {
            double best = Double.POSITIVE_INFINITY;
            for (int a = 0; a < n; a++) {
                for (int b = a + 1; b < n; b++) {
                    for (int c = b + 1; c < n; c++) {
                        best = Math.min(best, heldBy(angle, r, side, a, b, c));
                    }
                }
            }
            ReferenceCircle circle =
                    side > 0 ? ReferenceCircle.MINIMUM_CIRCUMSCRIBED : ReferenceCircle.MAXIMUM_INSCRIBED;
            Roundness found = CircleFit.ofRunout(circle, angle, r);
            assertEquals(best, side * found.radius_mm(), 1e-9, circle.words());
        }
    }

    /** The radius (its negative inside) of the circle through three points, if no point lies beyond it. */
    private static double heldBy(double[] angle, double[] r, int side, int... points) {
        double[][] m = new double[3][];
        double[] right = new double[3];
        for (int k = 0; k < 3; k++) {
            m[k] = new double[] {1, Math.cos(angle[points[k]]), Math.sin(angle[points[k]])};
            right[k] = side * r[points[k]];
        }
        double[] x = DualSimplex.solve(m, right);
        for (int i = 0; i < r.length; i++) {
            if (side * r[i] - x[0] - x[1] * Math.cos(angle[i]) - x[2] * Math.sin(angle[i]) > 1e-9) {
                return Double.POSITIVE_INFINITY;
            }
        }
        return x[0];
    }
}

package sweepbook.analysis.network;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.IntRange;
import org.hipparchus.linear.Array2DRowRealMatrix;
import org.hipparchus.linear.LUDecomposition;
import org.hipparchus.linear.RealMatrix;
import org.hipparchus.random.RandomGenerator;
import org.hipparchus.random.Well19937c;
import sweepbook.analysis.uncertainty.Estimate;

/**
 * Law: the sparse way gives what dense matrices of a reference library (Hipparchus) give. Uncertainties differ by a
 * factor of 30 at most there: with more the dense normal equations lose the digits that are compared.
 */
class NetworkProperties {
    @Property(tries = 150)
    void placesCovarianceAndRedundancyAreThoseOfDenseNormalEquations(
            @ForAll long seed, @ForAll @IntRange(min = 1, max = 25) int points, @ForAll @IntRange(max = 60) int spare) {
        RandomGenerator random = new Well19937c(seed);
        List<Observation> observations = new ArrayList<>();
        for (int i = 1; i <= points; i++) {
            observations.add(between(random, random.nextInt(i), i)); // ties every point to point 0
        }
        for (int i = 0; i < spare; i++) {
            int from = random.nextInt(points + 1);
            int to = random.nextInt(points + 1);
            if (from != to) {
                observations.add(between(random, from, to));
            }
        }
        Adjustment sparse = new Network(Map.of("0", 3.0), observations).adjust(Sigma.AS_STATED, Reliability.USUAL);

        int n = observations.size();
        RealMatrix a = new Array2DRowRealMatrix(n, points);
        RealMatrix weighted = new Array2DRowRealMatrix(points, n);
        double[] l = new double[n];
        for (int e = 0; e < n; e++) {
            Observation o = observations.get(e);
            l[e] = o.difference().value();
            double w = 1 / (o.difference().stdU() * o.difference().stdU());
            l[e] += put(a, weighted, e, Integer.parseInt(o.to()), 1, w);
            l[e] += put(a, weighted, e, Integer.parseInt(o.from()), -1, w);
        }
        RealMatrix q = new LUDecomposition(weighted.multiply(a)).getSolver().getInverse();
        double[] x = q.operate(weighted.operate(l));
        RealMatrix redundancy = a.multiply(q).multiply(weighted);
        for (int i = 1; i <= points; i++) {
            Estimate place = sparse.placeOf("" + i).asOptional().orElseThrow();
            assertEquals(x[i - 1], place.value(), 1e-7, "seed " + seed);
            assertEquals(Math.sqrt(q.getEntry(i - 1, i - 1)), place.stdU(), 1e-8, "seed " + seed);
        }
        if (points > 1) {
            double variance = q.getEntry(0, 0) + q.getEntry(points - 1, points - 1) - 2 * q.getEntry(0, points - 1);
            Estimate far = sparse.difference("1", "" + points).asOptional().orElseThrow();
            assertEquals(Math.sqrt(variance), far.stdU(), 1e-8, "seed " + seed);
        }
        double sum = 0;
        for (int e = 0; e < n; e++) {
            double r = sparse.residuals().get(e).redundancy();
            assertEquals(1 - redundancy.getEntry(e, e), r, 1e-8, "seed " + seed);
            sum += r;
        }
        // Law: redundancy numbers add up to the degrees of freedom.
        assertEquals(sparse.degreesOfFreedom(), sum, 1e-7, "seed " + seed);
    }

    private static Observation between(RandomGenerator random, int from, int to) {
        Estimate difference = new Estimate(
                200 * random.nextDouble() - 100, Math.pow(10, 1.5 * random.nextDouble() - 1), Double.POSITIVE_INFINITY);
        return new Observation("touch", "" + from, "" + to, difference);
    }

    private static double put(RealMatrix a, RealMatrix weighted, int row, int point, int sign, double w) {
        if (point == 0) {
            return -sign * 3.0;
        }
        a.setEntry(row, point - 1, sign);
        weighted.setEntry(point - 1, row, sign * w);
        return 0;
    }

    /** Law: in a ring of n equal ties a tie has redundancy 1/n, even where the ring hangs on a tie a million times weaker. */
    @Property(tries = 100)
    void veryUnequalWeightsLoseNoDigits(
            @ForAll @IntRange(min = 3, max = 200) int ring, @ForAll @IntRange(min = -6, max = 6) int power) {
        double weak_mm = Math.pow(10, power);
        List<Observation> observations = new ArrayList<>();
        observations.add(new Observation("weak", "0", "1", new Estimate(7, weak_mm, Double.POSITIVE_INFINITY)));
        for (int i = 1; i <= ring; i++) {
            observations.add(new Observation(
                    "tie", "" + i, "" + (i % ring + 1), new Estimate(1, 0.001, Double.POSITIVE_INFINITY)));
        }
        Adjustment adjusted = new Network(Map.of("0", 0.0), observations).adjust(Sigma.AS_STATED, Reliability.USUAL);
        Estimate across =
                adjusted.difference("1", "" + (1 + ring / 2)).asOptional().orElseThrow();
        int half = ring / 2;
        double variance = 1e-6 * half * (ring - half) / ring;
        assertEquals(Math.sqrt(variance), across.stdU(), 1e-6 * Math.sqrt(variance));
        assertEquals(1.0 / ring, adjusted.residuals().get(1).redundancy(), 1e-9);
        assertEquals(weak_mm, adjusted.placeOf("1").asOptional().orElseThrow().stdU(), 1e-9 * weak_mm);
    }
}

package sweepbook.analysis.runout.fit;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;

import java.util.Arrays;
import java.util.Random;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.IntRange;

/** Law: what is kept is what lies near the median of the seven readings about it, however that is found. */
class SpikesProperties {
    @Property(tries = 200)
    void keepsWhatLiesNearTheMedian(@ForAll long seed, @ForAll @IntRange(min = 1, max = 60) int n) {
        Random random = new Random(seed);
        double[] reading = random.ints(n, -20, 20)
                .mapToDouble(i -> random.nextInt(8) == 0 ? 40 * i : i)
                .toArray();
        double[] off = new double[n];
        for (int i = 0; i < n; i++) {
            int from = Math.max(0, Math.min(i - 3, n - 7));
            double[] window = Arrays.copyOfRange(reading, from, Math.min(n, from + 7));
            Arrays.sort(window);
            off[i] = Math.abs(reading[i] - window[window.length / 2]);
        }
        double limit = 6 * Spikes.quantile(off, 0.9) + 1.5;
        boolean[] expected = new boolean[n];
        for (int i = 0; i < n; i++) {
            expected[i] = off[i] <= (i < 3 || i >= n - 3 ? 3 : 1) * limit;
        }
        assertArrayEquals(expected, Spikes.keep(reading, 1));
    }
}

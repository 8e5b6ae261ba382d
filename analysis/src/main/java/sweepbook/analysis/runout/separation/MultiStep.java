package sweepbook.analysis.runout.separation;

import java.util.Arrays;
import java.util.List;
import sweepbook.analysis.runout.fit.Profile;

/**
 * Separation by equal steps: before each of N runs the part is turned on the spindle by 360/N degrees against the run
 * before, in the direction of turning; the indicator stays. The angle of every run is the spindle's. The mean over the
 * runs is the spindle and those undulations of the part that are multiples of N, which no number of runs can tell apart.
 *
 * <p>D. J. Whitehouse, J. Phys. E 9 (1976) 531; D. G. Chetwynd, G. J. Siddall, J. Phys. E 9 (1976) 537.
 */
public final class MultiStep {
    private MultiStep() {}

    public static Separated of(List<Profile> runs) {
        int n = runs.size();
        if (n < 2) {
            throw new IllegalArgumentException("two steps or more separate part and spindle, not " + n);
        }
        double[] share = new double[n];
        Arrays.fill(share, 1.0 / n);
        // A part turned on shows every spot earlier by that angle.
        double[] back_rad = new double[n];
        for (int k = 0; k < n; k++) {
            back_rad[k] = -2 * Math.PI * k / n;
        }
        Profile spindle = Combination.of(runs, share, new double[n]);
        Profile together = Combination.of(runs, share, back_rad);
        return new Separated(Combination.without(together, n), spindle);
    }
}

package sweepbook.analysis.runout.separation;

import java.util.List;
import java.util.TreeSet;
import java.util.function.IntPredicate;
import sweepbook.analysis.runout.fit.Profile;

/** Weighted sums of profiles, each turned back by an angle of its own. */
final class Combination {
    private Combination() {}

    /** The sum of share[k] times run k read at angle + back[k]; mean and first harmonic are dropped. */
    static Profile of(List<Profile> runs, double[] share, double[] back_rad) {
        TreeSet<Integer> numbers = new TreeSet<>();
        runs.forEach(run -> {
            for (int n : run.upr()) {
                numbers.add(n);
            }
        });
        numbers.remove(1);
        int[] upr = numbers.stream().mapToInt(Integer::intValue).toArray();
        double[] cos = new double[upr.length];
        double[] sin = new double[upr.length];
        for (int k = 0; k < share.length; k++) {
            Profile run = runs.get(k);
            for (int j = 0; j < upr.length; j++) {
                int at = run.indexOf(upr[j]);
                if (at >= 0) {
                    double c = Math.cos(upr[j] * back_rad[k]);
                    double s = Math.sin(upr[j] * back_rad[k]);
                    cos[j] += share[k] * (run.cos_mm()[at] * c + run.sin_mm()[at] * s);
                    sin[j] += share[k] * (run.sin_mm()[at] * c - run.cos_mm()[at] * s);
                }
            }
        }
        return new Profile(0, upr, cos, sin);
    }

    /** The profile without the multiples of a number. */
    static Profile without(Profile profile, int multiplesOf) {
        IntPredicate keep = j -> profile.upr()[j] % multiplesOf != 0;
        int[] kept = java.util.stream.IntStream.range(0, profile.upr().length)
                .filter(keep)
                .toArray();
        return new Profile(
                0,
                java.util.Arrays.stream(kept).map(j -> profile.upr()[j]).toArray(),
                java.util.Arrays.stream(kept)
                        .mapToDouble(j -> profile.cos_mm()[j])
                        .toArray(),
                java.util.Arrays.stream(kept)
                        .mapToDouble(j -> profile.sin_mm()[j])
                        .toArray());
    }
}

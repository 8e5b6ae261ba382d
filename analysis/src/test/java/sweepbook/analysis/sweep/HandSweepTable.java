package sweepbook.analysis.sweep;

import java.util.Arrays;
import java.util.Locale;

/** Prints the errors of the estimator on made-up touches, kind by kind: the arguments are the number of seeds, kinds. */
final class HandSweepTable {
    private HandSweepTable() {}

    public static void main(String[] args) {
        int seeds = Integer.parseInt(args[0]);
        long first = args.length > 1 ? Long.parseLong(args[1]) : 1;
        boolean verbose = args.length > 2;
        for (HandSweep.Kind kind : HandSweep.Kind.values()) {
            if (verbose && !args[2].equals("all") && !kind.name().equals(args[2])) {
                continue;
            }
            double squaresQ = 0;
            double squaresB = 0;
            double zeroB = 0;
            int gross = 0;
            int none = 0;
            int covered = 0;
            int zeroNone = 0;
            int zeroCovered = 0;
            int clicksWrong = 0;
            int signWrong = 0;
            int count = 0;
            double[] ratio = new double[seeds];
            long start = System.nanoTime();
            long busy = 0;
            for (int s = 0; s < seeds; s++) {
                HandSweep sweep = new HandSweep(kind, first + s);
                long t0 = System.nanoTime();
                SweepFindings f = SweepReader.read(sweep.trace, SweepSettings.FROM_THE_TRACE);
                busy += System.nanoTime() - t0;
                var h = f.highSpot().asOptional();
                if (f.pressing().isPresent() && f.pressing().get() != sweep.pressing) {
                    signWrong++;
                    if (verbose) System.out.println("  sign wrong " + sweep);
                }
                if (h.isEmpty()) {
                    none++;
                    if (verbose) System.out.println("  none " + sweep);
                } else {
                    double e = h.get().value() - sweep.crest_mm;
                    if (Math.abs(e) > 3 * sweep.q_mm) {
                        gross++;
                        if (verbose)
                            System.out.printf(
                                    "  gross %s %.2f q, u %.2f q%n",
                                    sweep, e / sweep.q_mm, h.get().stdU() / sweep.q_mm);
                    } else {
                        ratio[count] = Math.abs(e) / sweep.bound_mm;
                        count++;
                        squaresQ += e * e / sweep.q_mm / sweep.q_mm;
                        double b = Math.max(sweep.bound_mm, 0);
                        squaresB += e * e / b / b;
                        if (verbose && Math.abs(e) > 3.5 * b)
                            System.out.printf(
                                    "  off %s %.2f q, %.1f bounds, u %.2f bounds, passes %d of %d%n",
                                    sweep,
                                    e / sweep.q_mm,
                                    e / b,
                                    h.get().stdU() / b,
                                    f.passes().size(),
                                    sweep.crossings);
                    }
                    if (Math.abs(e) <= h.get().u95()) covered++;
                }
                var z = f.stableZero().asOptional();
                if (z.isEmpty()) {
                    zeroNone++;
                    if (verbose) System.out.println("  no zero " + sweep + " " + f.stableZero());
                } else {
                    double e = z.get().level().value() - sweep.stable_mm;
                    double b = Math.max(sweep.stableBound_mm, 0.05 * sweep.q_mm);
                    zeroB += e * e / b / b;
                    if (Math.abs(e) <= z.get().level().u95()) zeroCovered++;
                    if (verbose && Math.abs(e) > 6 * b)
                        System.out.printf("  zero off %s %.2f q, %.1f bounds%n", sweep, e / sweep.q_mm, e / b);
                }
                if (f.clicks().net() != sweep.clicks) {
                    clicksWrong++;
                    if (verbose)
                        System.out.println("  clicks " + sweep + " " + f.clicks() + " not " + sweep.clicks + " of "
                                + sweep.step_mm + " q " + sweep.q_mm);
                }
            }
            double[] sorted = Arrays.copyOf(ratio, count);
            Arrays.sort(sorted);
            System.out.printf(
                    Locale.ROOT,
                    "%-12s rms/q %.3f rms/bound %.2f median/0.67bound %.2f gross %d none %d sign %d cover %.1f%% | zero rms/b %.2f none %d cover %.1f%% clicks wrong %d | %.2f ms%n",
                    kind,
                    Math.sqrt(squaresQ / count),
                    Math.sqrt(squaresB / count),
                    sorted[count / 2] / 0.6745,
                    gross,
                    none,
                    signWrong,
                    100.0 * covered / seeds,
                    Math.sqrt(zeroB / (seeds - zeroNone)),
                    zeroNone,
                    100.0 * zeroCovered / seeds,
                    clicksWrong,
                    busy / 1e6 / seeds);
        }
    }
}

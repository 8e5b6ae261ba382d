package sweepbook.analysis.sweep;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.hipparchus.util.FastMath;

/**
 * What a pass in clicks tells of its crest, whichever way its clicks are counted. About each likely number of clicks across the
 * crest, where they hardly show, the likelihood has a top of its own; all tops are averaged by their evidence.
 */
final class ClickModes {
    private static final int MOST_ROUNDS = 30;
    private static final int MOST_MODES = 7;
    private static final double HOPELESS = 12;
    private static final double[] EVEN = {1, 0, 0, 0, 0, 0, 0, 0, 0};

    private final PassReadings readings;
    private final Rounding rounding;
    private final ClickChain chain;
    private final List<Mode> modes = new ArrayList<>();

    record Mode(double[] p, Cholesky factor, double logEvidence, double[] counts) {
        CrestMoments moments() {
            double[] ofCrest = factor.inverseColumn(0);
            return new CrestMoments(p[0], p[1], ofCrest[0], ofCrest[1], factor.inverseColumn(1)[1]);
        }
    }

    private ClickModes(PassReadings readings, Rounding rounding, double perSecond) {
        this.readings = readings;
        this.rounding = rounding;
        chain = new ClickChain(readings, rounding, perSecond);
    }

    static Optional<PassFit> of(PassFit fit, Rounding rounding) {
        PassReadings readings = fit.readings();
        ClickModes modes = new ClickModes(readings, rounding, perSecond(readings));
        modes.climb(start(fit.even(), readings));
        if (modes.modes.isEmpty()) {
            return Optional.empty();
        }
        modes.explore();
        return modes.found();
    }

    private static double[] start(double[] even, PassReadings readings) {
        double c = FastMath.exp(even[PassLikelihood.SPEED]) / readings.perUnit();
        return new double[] {even[0], even[1], even[PassLikelihood.P0] - c * readings.middle(), c};
    }

    /** From the usual wait. */
    private static double perSecond(PassReadings readings) {
        int n = readings.size();
        List<Double> waits = new ArrayList<>();
        double next = Math.floor(readings.count(0)) + 0.5;
        double before = Double.NaN;
        for (int i = 1; i < n; i++) {
            while (readings.count(i) >= next) {
                double share = (next - readings.count(i - 1))
                        / Math.max(1e-9, readings.count(i) - readings.count(i - 1));
                double at = readings.at_s(i - 1)
                        + Math.max(0, Math.min(1, share)) * (readings.at_s(i) - readings.at_s(i - 1));
                if (!Double.isNaN(before)) {
                    waits.add(at - before);
                }
                before = at;
                next++;
            }
        }
        waits.sort(null);
        return waits.isEmpty() ? 1 : 1 / Math.max(1e-3, 1.05 * waits.get(waits.size() / 2));
    }

    private static double logPrior(double[] p) {
        double off = (p[1] - PassLikelihood.Bend.UNKNOWN.mean()) / PassLikelihood.Bend.UNKNOWN.spread();
        return -off * off / 2;
    }

    private static double[] gradient(ClickChain.Said said, double[] p) {
        double[] g = said.gradient().clone();
        double spread = PassLikelihood.Bend.UNKNOWN.spread();
        g[1] -= (p[1] - PassLikelihood.Bend.UNKNOWN.mean()) / (spread * spread);
        return g;
    }

    private static double[][] information(ClickChain.Said said) {
        double[][] m = new double[ClickChain.PARAMETERS][];
        for (int a = 0; a < m.length; a++) {
            m[a] = said.information()[a].clone();
        }
        double spread = PassLikelihood.Bend.UNKNOWN.spread();
        m[1][1] += 1 / (spread * spread);
        return m;
    }

    /** To the top of the likelihood near a start; what is hidden lessens the information, which differences of the slope show. */
    private Mode climb(double[] start) {
        double[] p = start.clone();
        ClickChain.Said said = chain.said(p);
        double value = said.log() + logPrior(p);
        double[] step = new double[p.length];
        double[][] observed = null;
        for (int round = 0; round < MOST_ROUNDS; round++) {
            double[] g = gradient(said, p);
            Cholesky factor = null;
            if (round >= 4 && round % 4 == 0) {
                observed = observed(p, g, information(said));
                factor = observed == null ? null : Cholesky.of(observed);
            } else if (observed != null) {
                factor = Cholesky.of(observed);
            }
            if (factor == null) {
                factor = Cholesky.of(information(said), 1e-9, 0);
            }
            if (factor == null) {
                return null;
            }
            step = factor.solve(g);
            double gain = 0;
            for (int a = 0; a < p.length; a++) {
                gain += step[a] * g[a] / 2;
            }
            if (gain < 1e-4) {
                break;
            }
            boolean better = false;
            for (double share = 1; share > 0.01; share /= 3) {
                double[] next = p.clone();
                for (int a = 0; a < p.length; a++) {
                    next[a] += share * step[a];
                }
                if (!(next[3] > 0.5 * p[3])) {
                    continue;
                }
                ClickChain.Said there = chain.said(next);
                if (there.log() + logPrior(next) > value) {
                    p = next;
                    said = there;
                    value = there.log() + logPrior(next);
                    better = true;
                    break;
                }
            }
            if (!better) {
                if (observed == null) {
                    break;
                }
                observed = null;
            }
        }
        double[][] at = observed(p, gradient(said, p), information(said));
        Cholesky factor = at == null ? null : Cholesky.of(at);
        if (factor == null) {
            factor = Cholesky.of(information(said), 1e-9, 0);
        }
        if (factor == null || Double.isNaN(value)) {
            return null;
        }
        Mode mode = new Mode(p, factor, value - factor.logDeterminant() / 2, said.counts());
        double u = FastMath.sqrt(mode.moments().crestVariance_mm2());
        for (Mode other : modes) {
            if (Math.abs(other.p[0] - p[0]) < 0.1 * u && Math.abs(other.p[3] / p[3] - 1) < 1e-3) {
                return null;
            }
        }
        modes.add(mode);
        return mode;
    }

    /** Minus the second derivatives, by differences of the slope. */
    private double[][] observed(double[] p, double[] g, double[][] complete) {
        int n = p.length;
        Cholesky factor = Cholesky.of(complete, 1e-9, 0);
        if (factor == null) {
            return null;
        }
        double[][] m = new double[n][n];
        for (int a = 0; a < n; a++) {
            double h = 0.2 * FastMath.sqrt(factor.inverseColumn(a)[a]);
            // Along the column of the covariance, so that no step leads off the ridge.
            double[] q = p.clone();
            q[a] += 0.1 / FastMath.sqrt(complete[a][a]);
            h = q[a] - p[a];
            double[] there = gradient(chain.said(q), q);
            q[a] = p[a] - h;
            double[] here = gradient(chain.said(q), q);
            for (int b = 0; b < n; b++) {
                m[a][b] = (here[b] - there[b]) / (2 * h);
            }
        }
        for (int a = 0; a < n; a++) {
            for (int b = 0; b < a; b++) {
                m[a][b] = (m[a][b] + m[b][a]) / 2;
            }
        }
        return m;
    }

    private void explore() {
        List<Mode> open = new ArrayList<>(modes);
        while (!open.isEmpty() && modes.size() < MOST_MODES) {
            open.sort((x, y) -> Double.compare(y.logEvidence, x.logEvidence));
            Mode mode = open.remove(0);
            double best = modes.stream().mapToDouble(Mode::logEvidence).max().orElseThrow();
            if (mode.logEvidence < best - HOPELESS) {
                break;
            }
            for (int more = -1; more <= 1; more += 2) {
                double[] counts = new double[readings.size()];
                for (int i = 0; i < counts.length; i++) {
                    double before = i == 0 ? Double.NEGATIVE_INFINITY : counts[i - 1];
                    double shifted = mode.counts[i] + (mode.counts[i] * mode.p[3] + mode.p[2] > 0 ? more : 0);
                    counts[i] = Math.max(before, shifted);
                }
                PassFit.of(readings.counted(counts), rounding, PassLikelihood.Bend.UNKNOWN, EVEN)
                        .map(f -> climb(start(f.even(), f.readings())))
                        .ifPresent(open::add);
            }
        }
    }

    private Optional<PassFit> found() {
        Mode best = modes.stream()
                .max((x, y) -> Double.compare(x.logEvidence, y.logEvidence))
                .orElseThrow();
        double[] share =
                CrestMoments.shares(modes.stream().mapToDouble(m -> m.logEvidence).toArray());
        CrestMoments mixed =
                CrestMoments.mixed(modes.stream().map(Mode::moments).toList(), share);
        if (Boolean.getBoolean("dbg")) {
            for (int i = 0; i < share.length; i++) System.err.printf("mode %.4f h %.6f u %.6f g %.4f o/c %.3f c %.6f%n", share[i], modes.get(i).p[0], Math.sqrt(modes.get(i).moments().crestVariance_mm2()), modes.get(i).p[1], modes.get(i).p[2]/modes.get(i).p[3], modes.get(i).p[3]);
        }
        return PassFit.of(readings.counted(best.counts), rounding, PassLikelihood.Bend.UNKNOWN, EVEN)
                .map(f -> f.with(mixed, best.logEvidence));
    }
}

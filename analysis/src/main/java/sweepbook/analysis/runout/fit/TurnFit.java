package sweepbook.analysis.runout.fit;

import org.hipparchus.linear.ArrayRealVector;
import org.hipparchus.linear.RealMatrix;
import org.hipparchus.linear.RealVector;
import org.hipparchus.stat.descriptive.moment.Variance;
import sweepbook.analysis.runout.angle.Turning;

/**
 * Profile, drift and angles of a turned part in one least-squares fit: reading = profile(angle(time)) + drift(time) +
 * noise, by Gauss-Newton; the angles are a spline whose stiffness kappa is given, or stated. See docs/runout.md.
 */
public final class TurnFit {
    private static final int MAX_ITERATIONS = 12;
    /** The first finds the profile, the second the noise; only then do steps mean anything. */
    private static final int LEAST_ITERATIONS = 3;
    /** A step that turns the part further is cut to it: beyond, the profile is no longer near its tangent. */
    private static final double MAX_STEP_RAD = 0.3;

    private final Samples samples;
    private final int[] upr;
    private final Drift drift;
    private final int p;
    private final AngleWander wander;
    private final double[] angle_rad;
    private final int[] interval;
    private final double[][] basis;
    private final double[] beta;
    private final double[] damping;
    private final ReadingNoise noise;
    private final DesignRows rows;
    private RealMatrix covariance;
    private double[] residual_mm;
    private double[] departure_mm;
    private double departureVariance_mm2;
    private double evidence;
    private final double spread_mm;

    private TurnFit(
            Samples samples, int[] upr, int driftDegree, AngleWander wander, double[] stated_rad, boolean rounded) {
        this.samples = samples;
        this.upr = upr.clone();
        drift = new Drift(samples.from_s(), samples.to_s(), driftDegree);
        this.wander = wander;
        p = 1 + driftDegree + 2 * upr.length;
        beta = new double[p];
        damping = new double[upr.length];
        noise = new ReadingNoise(samples.step_mm(), rounded);
        rows = new DesignRows(p);
        spread_mm = Math.sqrt(new Variance(false).evaluate(samples.reading_mm()));
        int n = samples.size();
        angle_rad = stated_rad == null ? new double[n] : stated_rad.clone();
        interval = new int[wander == null ? 0 : n];
        basis = new double[wander == null ? 0 : n][];
        int k = 0;
        for (int i = 0; i < interval.length; i++) {
            k = wander.interval(samples.time_s()[i], k);
            interval[i] = k;
            basis[i] = wander.basis(samples.time_s()[i], k);
        }
    }

    /** Fits profile, drift and the motion itself. */
    public static TurnFit ofMotion(
            Samples samples, int[] upr, int driftDegree, Turning start, Anchors anchors, double kappa, Detail detail) {
        AngleWander wander = new AngleWander(start, anchors, kappa);
        TurnFit fit = new TurnFit(samples, upr, driftDegree, wander, null, detail == Detail.ROUNDED);
        double speed = (start.knotAngle_rad(start.knots() - 1) - start.knotAngle_rad(0))
                / (start.knot_s(start.knots() - 1) - start.knot_s(0));
        fit.solve(speed);
        return fit;
    }

    /** Fits profile and drift where the angles are stated. */
    public static TurnFit atAngles(Samples samples, int[] upr, int driftDegree, double[] angle_rad, Detail detail) {
        TurnFit fit = new TurnFit(samples, upr, driftDegree, null, angle_rad, detail == Detail.ROUNDED);
        fit.solve(0);
        return fit;
    }

    /** What a reading is taken for. */
    public enum Detail {
        /** A value with normal noise that holds the display's rounding. */
        PLAIN,
        /** One step of the display, within which the value may lie anywhere; counts where the noise is below a step. */
        ROUNDED
    }

    private void solve(double speed_rad_per_s) {
        for (int j = 0; j < upr.length; j++) {
            double x = upr[j] * speed_rad_per_s * samples.grouped_s() / 2;
            damping[j] = x == 0 ? 1 : Math.sin(x) / x;
        }
        noise.begin(samples.reading_mm());
        for (int iteration = 0; iteration < MAX_ITERATIONS; iteration++) {
            if (step() && iteration >= LEAST_ITERATIONS) {
                break;
            }
        }
        findResiduals();
        noise.update(residual_mm, noise.degreesOfFreedom());
        findDepartures();
    }

    /** One Gauss-Newton step; true once it moves nothing that matters. */
    private boolean step() {
        TurnEquations equations = new TurnEquations(p, wander);
        double[] residual = new double[samples.size()];
        for (int from = 0; from < residual.length; from += rows.most()) {
            int count = Math.min(rows.most(), residual.length - from);
            fillRows(from, count);
            rows.residuals(samples.reading_mm(), beta, from, count, residual);
            noise.at(residual, from, count, rows);
            equations.add(rows, count);
            if (wander != null) {
                equations.addAngles(rows, count, interval, basis, from);
            }
        }
        TurnEquations.Step step = equations.solve();
        covariance = step.covariance();
        evidence = noise.logLikelihood(residual)
                - (step.angleCost() + step.logDeterminant()) / 2
                - p * Math.log(spread_mm)
                + (wander == null ? 0 : wander.logPrecision() / 2);
        double moved = 0;
        for (int j = 0; j < p; j++) {
            beta[j] += step.change()[j];
            moved = Math.max(moved, Math.abs(step.change()[j]) / Math.sqrt(covariance.getEntry(j, j)));
        }
        if (wander != null) {
            moved = Math.max(moved, 100 * wander.move(step.angleChange(), MAX_STEP_RAD));
        }
        noise.update(residual, residual.length - p - step.anglesFound());
        return moved < 0.01;
    }

    private void fillRows(int from, int count) {
        for (int r = 0; r < count; r++) {
            rows.slope()[r] = row(from + r, rows.x(), r * p);
        }
    }

    /** Fills the row of the design that begins there and gives the profile's slope, in mm per rad. */
    private double row(int i, double[] x, int begin) {
        drift.fill(samples.time_s()[i], x, begin);
        if (wander != null) {
            angle_rad[i] = wander.angle_rad(interval[i], basis[i]);
        }
        double slope = 0;
        double cos1 = Math.cos(angle_rad[i]);
        double sin1 = Math.sin(angle_rad[i]);
        double cos = 1;
        double sin = 0;
        int order = 0;
        for (int j = 0; j < upr.length; j++) {
            if (upr[j] - order > 4) {
                cos = Math.cos(upr[j] * angle_rad[i]);
                sin = Math.sin(upr[j] * angle_rad[i]);
                order = upr[j];
            }
            for (; order < upr[j]; order++) {
                double c = cos * cos1 - sin * sin1;
                sin = sin * cos1 + cos * sin1;
                cos = c;
            }
            int at = 1 + drift.degree() + 2 * j;
            x[begin + at] = damping[j] * cos;
            x[begin + at + 1] = damping[j] * sin;
            slope += upr[j] * damping[j] * (beta[at + 1] * cos - beta[at] * sin);
        }
        return slope;
    }

    private void findResiduals() {
        double[] residual = new double[samples.size()];
        for (int from = 0; from < residual.length; from += rows.most()) {
            int count = Math.min(rows.most(), residual.length - from);
            fillRows(from, count);
            rows.residuals(samples.reading_mm(), beta, from, count, residual);
        }
        residual_mm = residual;
    }

    /** As far as each reading says, and how well they say so together. */
    private void findDepartures() {
        departure_mm = new double[residual_mm.length];
        double information = 0;
        for (int i = 0; i < departure_mm.length; i++) {
            noise.at(residual_mm[i]);
            departure_mm[i] = noise.score();
            information += noise.information() / departure_mm.length;
        }
        departureVariance_mm2 = 1 / information;
        for (int i = 0; i < departure_mm.length; i++) {
            departure_mm[i] *= departureVariance_mm2;
        }
    }

    public Profile profile() {
        double[] cos = new double[upr.length];
        double[] sin = new double[upr.length];
        for (int j = 0; j < upr.length; j++) {
            cos[j] = beta[1 + drift.degree() + 2 * j];
            sin[j] = beta[2 + drift.degree() + 2 * j];
        }
        return new Profile(beta[0], upr.clone(), cos, sin);
    }

    /** Where in {@link #covariance()} the cosine part of the j-th undulation stands; its sine part follows. */
    public int column(int j) {
        return 1 + drift.degree() + 2 * j;
    }

    /** Mean, drift and undulations, in the order of their covariance. */
    RealVector coefficients() {
        return new ArrayRealVector(beta);
    }

    /** Covariance of mean, drift and undulations, in mm^2. */
    public RealMatrix covariance() {
        return covariance;
    }

    /** The drift at a time, without the mean. */
    public double drift_mm(double time_s) {
        return drift.at_mm(time_s, beta);
    }

    /** Reading less profile and drift, a copy. */
    public double[] residuals_mm() {
        return residual_mm.clone();
    }

    /**
     * How far each reading lies off the fit as far as it says: the residual, or where it counts as a step of the display
     * only what lies outside that step; a copy.
     */
    public double[] departures_mm() {
        return departure_mm.clone();
    }

    /** The variance of such a departure by noise alone. */
    public double departureVariance_mm2() {
        return departureVariance_mm2;
    }

    /** The angle at each sample, a copy. */
    public double[] angles_rad() {
        return angle_rad.clone();
    }

    /** Standard deviation of one sample about the fit, the display's rounding in it. */
    public double scatter_mm() {
        return noise.scatter_mm();
    }

    /** Variance of what rounding does to a reading on average over the noise. */
    public double roundingLeft_mm2() {
        return noise.roundingLeft_mm2();
    }

    public double degreesOfFreedom() {
        return noise.degreesOfFreedom();
    }

    /**
     * Log of how probable the readings are under this stiffness, these anchors and undulations (Laplace), but for a
     * constant; beforehand a coefficient is anything up to the spread of the readings.
     */
    public double evidence() {
        return evidence;
    }

    /** The fitted motion; only of a fit of the motion. */
    public Turning turning() {
        return wander.turning();
    }

    /** How well the readings alone tell an even speed, about the middle of the trace, where the profile is known. */
    public double speedStdU_rad_per_s() {
        double middle_s = (samples.from_s() + samples.to_s()) / 2;
        double[] x = new double[p];
        double sum = 0;
        for (int i = 0; i < samples.size(); i++) {
            double perSpeed = row(i, x, 0) * (samples.time_s()[i] - middle_s);
            sum += perSpeed * perSpeed;
        }
        return scatter_mm() / Math.sqrt(sum);
    }

    /** Anchor less fitted angle. */
    public double[] anchorMisses_rad() {
        return wander.anchorMisses_rad();
    }
}

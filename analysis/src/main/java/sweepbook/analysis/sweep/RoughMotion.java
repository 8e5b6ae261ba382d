package sweepbook.analysis.sweep;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import org.hipparchus.util.FastMath;

/**
 * The motion of a pass as a few of its readings tell it roughly: where the fits begin. At first noise is taken for so great that no
 * reading is given up as a spike for the sake of a poor start.
 */
final class RoughMotion {
    private static final double ROUGH = 0.03;
    /** From one noise to the next. */
    private static final double FINER = 4;
    /** So many readings tell the motion roughly. */
    private static final int MOST_READINGS = 200;
    /** A line that goes backwards is no pass; an ascent may still find one. */
    private static final double SLOWEST = 1e-9;

    private final double[] line;
    private final PassLikelihood roughest;
    /** Under less and less noise. */
    private final List<PassLikelihood> finer = new ArrayList<>();

    /** @param reading_mm standard deviation of a reading, rounding included */
    RoughMotion(PassReadings readings, double reading_mm, PassLikelihood.Bend bend) {
        line = line(readings, bend.mean());
        double rough_mm = ROUGH * readings.fall_mm() + reading_mm;
        roughest = new PassLikelihood(readings.sample(MOST_READINGS), new Rounding(rough_mm, 0), bend);
        for (double noise_mm = rough_mm / FINER; noise_mm > 2 * reading_mm; noise_mm /= FINER) {
            finer.add(roughest.under(new Rounding(noise_mm, 0), bend));
        }
    }

    /** Log of the speed, were it even and the curvature as expected. */
    double logSpeed() {
        return line[PassLikelihood.SPEED];
    }

    /** Of an even hand; rougher, as that takes long where the hand was not even. */
    double[] even() {
        double[] p = ascent(roughest, Hand.EVEN).roughlyFrom(roughest.at(line));
        for (PassLikelihood likelihood : finer) {
            p = ascent(likelihood, Hand.EVEN).roughlyFrom(likelihood.at(p));
        }
        return p;
    }

    /** Of a hand that may change its speed, the more the finer the noise. */
    double[] uneven() {
        double[] p = ascent(roughest, Hand.USUAL).parametersFrom(roughest.at(withKnots(line, 1, Hand.USUAL)));
        for (PassLikelihood likelihood : finer) {
            p = ascent(likelihood, Hand.WILD).parametersFrom(likelihood.at(p));
        }
        return p;
    }

    private Ascent ascent(PassLikelihood likelihood, Hand hand) {
        return new Ascent(likelihood, hand, logSpeed());
    }

    /** A straight line through the signed roots of the drop below the top. */
    private static double[] line(PassReadings readings, double bend) {
        double[] t = readings.time;
        double n = t.length;
        double st = 0;
        double stt = 0;
        double su = 0;
        double stu = 0;
        for (int i = 0; i < t.length; i++) {
            double u = Math.signum(t[i] - readings.topTime)
                    * FastMath.sqrt(Math.max(0, readings.topLine_mm - readings.line_mm[i]));
            st += t[i];
            stt += t[i] * t[i];
            su += u;
            stu += t[i] * u;
        }
        double slope = (n * stu - st * su) / (n * stt - st * st);
        double middle = (su - slope * st) / n;
        double speed = FastMath.log(Math.max(slope, SLOWEST));
        return readings.pause()
                .map(pause -> new double[] {readings.topLine_mm, bend, middle, speed, pause.place(), middle})
                .orElse(new double[] {readings.topLine_mm, bend, middle, speed});
    }

    /** The same parameters with their mean speed at a hand's knots; as they are where they have as many. */
    static double[] withKnots(double[] p, int own, Hand hand) {
        if (own == hand.knots()) {
            return p;
        }
        int speeds = PassLikelihood.SPEED;
        double mean = Arrays.stream(p, speeds, speeds + own).sum() / own;
        double[] all = Arrays.copyOf(p, p.length - own + hand.knots());
        Arrays.fill(all, speeds, speeds + hand.knots(), mean);
        for (int i = speeds + own; i < p.length; i++) {
            all[i - own + hand.knots()] = p[i];
        }
        return all;
    }
}

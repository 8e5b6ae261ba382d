package sweepbook.simulator.trial;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.List;
import org.hipparchus.complex.Complex;
import org.junit.jupiter.api.Test;
import sweepbook.acquisition.trace.Trace;

/** Simulated truth against the published sums of the two methods; noise of a tenth of a micrometre averages to a hundredth. */
class SeparationTrialsTest {
    private static final double TOLERANCE_MM = 0.00004;

    /** Published: P = (m1 + m2) / 2, S = (m1 - m2) / 2 (Donaldson, Annals of the CIRP 21 (1972) 125). */
    @Test
    void halfTheSumIsThePartAndHalfTheDifferenceTheSpindle() {
        for (long seed = 0; seed < 20; seed++) {
            SeparationTrial trial = SeparationTrials.reversal(seed);
            for (int upr = 2; upr <= 9; upr++) {
                Complex first = harmonic(trial.runs().get(0), upr);
                Complex second = harmonic(trial.runs().get(1), upr);
                assertNear(of(trial.part(), upr), first.add(second).divide(2), "part", upr, seed);
                assertNear(of(trial.spindle(), upr), first.subtract(second).divide(2), "spindle", upr, seed);
            }
        }
    }

    /** Published: the mean of N runs is the spindle, but for the part's multiples of N (Whitehouse, J. Phys. E 9 (1976) 531). */
    @Test
    void theMeanOfTheStepsIsTheSpindleButForMultiplesOfTheirNumber() {
        int steps = 4;
        for (long seed = 0; seed < 20; seed++) {
            SeparationTrial trial = SeparationTrials.multiStep(steps, seed);
            for (int upr = 2; upr <= 9; upr++) {
                Complex mean = Complex.ZERO;
                for (Trace run : trial.runs()) {
                    mean = mean.add(harmonic(run, upr).divide(steps));
                }
                Complex expected = of(trial.spindle(), upr);
                if (upr % steps == 0) {
                    expected = expected.add(of(trial.part(), upr));
                }
                assertNear(expected, mean, "mean", upr, seed);
            }
        }
    }

    private static void assertNear(Complex expected, Complex actual, String what, int upr, long seed) {
        String where = what + ", " + upr + " a turn, seed " + seed;
        assertEquals(0, expected.subtract(actual).norm(), TOLERANCE_MM, where);
    }

    private static Complex of(List<Harmonic> form, int upr) {
        Harmonic harmonic =
                form.stream().filter(h -> h.upr() == upr).findFirst().orElseThrow();
        double phase_rad = Math.toRadians(harmonic.phase_deg());
        return new Complex(
                harmonic.amplitude_mm() * Math.cos(phase_rad), harmonic.amplitude_mm() * Math.sin(phase_rad));
    }

    /** Mean of reading * exp(i n angle) over the whole turns between marks, where the angle runs evenly. */
    private static Complex harmonic(Trace run, int upr) {
        int from = -1;
        int to = -1;
        int turns = -1;
        for (int i = 0; i < run.size(); i++) {
            if (run.mark(i)) {
                from = from < 0 ? i : from;
                to = i;
                turns++;
            }
        }
        Complex sum = Complex.ZERO;
        for (int i = from; i < to; i++) {
            double angle_rad = 2 * Math.PI * turns * (i - from) / (to - from);
            double r_mm = run.reading_mm(i);
            sum = sum.add(new Complex(r_mm * Math.cos(upr * angle_rad), r_mm * Math.sin(upr * angle_rad)));
        }
        return sum.multiply(2.0 / (to - from));
    }
}

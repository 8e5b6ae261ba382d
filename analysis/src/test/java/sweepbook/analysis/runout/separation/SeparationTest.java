package sweepbook.analysis.runout.separation;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import java.util.function.DoubleUnaryOperator;
import org.junit.jupiter.api.Test;
import sweepbook.analysis.runout.fit.Profile;
import sweepbook.analysis.runout.fit.Samples;
import sweepbook.analysis.runout.fit.TurnFit;

class SeparationTest {
    private static final int[] UPR = {1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12};

    private static Profile measured(DoubleUnaryOperator run) {
        int n = 360;
        double[] time = new double[n];
        double[] angle = new double[n];
        double[] reading = new double[n];
        for (int i = 0; i < n; i++) {
            time[i] = i;
            angle[i] = 2 * Math.PI * i / n;
            reading[i] = run.applyAsDouble(angle[i]);
        }
        return TurnFit.atAngles(new Samples(time, reading, 0, 0), UPR, 0, angle, TurnFit.Detail.PLAIN)
                .profile();
    }

    private static DoubleUnaryOperator form(long seed, int... upr) {
        Random random = new Random(seed);
        double[] phase = random.doubles(upr.length, 0, 2 * Math.PI).toArray();
        double[] size = random.doubles(upr.length, 0.001, 0.01).toArray();
        return t -> {
            double sum = 0;
            for (int j = 0; j < upr.length; j++) {
                sum += size[j] * Math.cos(upr[j] * t - phase[j]);
            }
            return sum;
        };
    }

    /** Law (Donaldson 1972): the second run is part less spindle; both come out at every angle. */
    @Test
    void reversalTellsPartFromSpindle() {
        DoubleUnaryOperator part = form(1, 2, 3, 5, 8);
        DoubleUnaryOperator spindle = form(2, 2, 3, 4, 7);
        Separated found = FormReversal.of(
                measured(t -> part.applyAsDouble(t) + spindle.applyAsDouble(t) + 0.02 * Math.cos(t - 1)),
                measured(t -> part.applyAsDouble(t) - spindle.applyAsDouble(t) + 0.05 * Math.cos(t + 2)));
        for (double t = 0; t < 6.3; t += 0.1) {
            assertEquals(part.applyAsDouble(t), found.part().at(t), 1e-9);
            assertEquals(spindle.applyAsDouble(t), found.spindle().at(t), 1e-9);
        }
    }

    /** Law (Whitehouse 1976): of six steps the part's 6 and 12 undulations pass for the spindle's, nothing else. */
    @Test
    void sixStepsAreBlindToSixAndTwelve() {
        int[] upr = {2, 3, 5, 6, 12};
        double[] amplitude = {3, 1.5, 0.7, 0.4, 0.2};
        DoubleUnaryOperator part = t -> {
            double sum = 0;
            for (int j = 0; j < upr.length; j++) {
                sum += amplitude[j] * Math.cos(upr[j] * t - j);
            }
            return sum;
        };
        DoubleUnaryOperator spindle = form(3, 2, 4);
        List<Profile> runs = new ArrayList<>();
        for (int k = 0; k < 6; k++) {
            double turned = 2 * Math.PI * k / 6;
            runs.add(measured(t -> part.applyAsDouble(t + turned) + spindle.applyAsDouble(t)));
        }
        Separated found = MultiStep.of(runs);
        assertEquals(0.4, found.spindle().amplitude_mm(6), 1e-9);
        assertEquals(0.2, found.spindle().amplitude_mm(12), 1e-9);
        for (int n : new int[] {3, 5, 7, 8, 9, 10, 11}) {
            assertEquals(0, found.spindle().amplitude_mm(n), 1e-9, "undulation " + n);
        }
        Profile clean = measured(spindle);
        assertEquals(clean.amplitude_mm(2), found.spindle().amplitude_mm(2), 1e-9);
        assertEquals(clean.amplitude_mm(4), found.spindle().amplitude_mm(4), 1e-9);
        assertEquals(3, found.part().amplitude_mm(2), 1e-9);
        assertEquals(1.5, found.part().amplitude_mm(3), 1e-9);
        assertEquals(1, found.part().phase_rad(3), 1e-9);
        assertEquals(0, found.part().amplitude_mm(6), 1e-9);
    }
}

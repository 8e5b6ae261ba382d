package sweepbook.analysis.runout.fit;

import static org.junit.jupiter.api.Assertions.assertEquals;

import org.junit.jupiter.api.Test;

class ProfileTest {
    /** Published: ISO 16610-21, exp(-pi (alpha n / n_c)^2), alpha = sqrt(ln 2 / pi) = 0.4697; half at the cut-off. */
    @Test
    void theGaussianFilterPassesHalfAtItsCutOff() {
        double alpha = 0.4697;
        assertEquals(0.5, Profile.gaussianWeight(50, 50), 1e-12);
        for (int n : new int[] {1, 2, 15, 50, 150}) {
            assertEquals(
                    Math.exp(-Math.PI * Math.pow(alpha * n / 50, 2)), Profile.gaussianWeight(n, 50), 1e-4, "n " + n);
        }
        assertEquals(1, Profile.gaussianWeight(500, Double.POSITIVE_INFINITY));
    }

    /** Law (ISO 4291): over equal steps R, a, b are the first Fourier coefficients exactly. */
    @Test
    void theSumsOfTheStandardAreTheFirstCoefficients() {
        int n = 36;
        double[] time = new double[n];
        double[] angle = new double[n];
        double[] r = new double[n];
        double mean = 0;
        double a = 0;
        double b = 0;
        for (int i = 0; i < n; i++) {
            time[i] = i;
            angle[i] = 2 * Math.PI * i / n;
            r[i] = 5 + 0.2 * Math.cos(angle[i] + 1) + 0.03 * Math.sin(3 * angle[i]) + 0.01 * ((i * 7919) % 13);
            mean += r[i] / n;
            a += 2 * r[i] * Math.cos(angle[i]) / n;
            b += 2 * r[i] * Math.sin(angle[i]) / n;
        }
        Profile fitted = TurnFit.atAngles(
                        new Samples(time, r, 0, 0), new int[] {1, 2, 3}, 0, angle, TurnFit.Detail.PLAIN)
                .profile();
        assertEquals(mean, fitted.mean_mm(), 1e-9);
        assertEquals(a, fitted.centre_mm()[0], 1e-9);
        assertEquals(b, fitted.centre_mm()[1], 1e-9);
    }

    /** Law: an ideal circle of radius R off centre by e looks oval by e^2 / (4 R), and nothing of it is form. */
    @Test
    void anOffCentreCircleLooksOval() {
        double radius = 10;
        double e = 0.1;
        int n = 720;
        double[] time = new double[n];
        double[] angle = new double[n];
        double[] r = new double[n];
        for (int i = 0; i < n; i++) {
            time[i] = i;
            angle[i] = 2 * Math.PI * i / n;
            double across = e * Math.sin(angle[i]);
            r[i] = e * Math.cos(angle[i]) + Math.sqrt(radius * radius - across * across);
        }
        Profile fitted = TurnFit.atAngles(
                        new Samples(time, r, 0, 0), new int[] {1, 2, 3, 4}, 0, angle, TurnFit.Detail.PLAIN)
                .profile();
        assertEquals(0.1, fitted.amplitude_mm(1), 1e-9);
        assertEquals(0.000250, fitted.amplitude_mm(2), 5e-8);
        assertEquals(-0.000250, fitted.mean_mm() - radius, 5e-8);
    }
}

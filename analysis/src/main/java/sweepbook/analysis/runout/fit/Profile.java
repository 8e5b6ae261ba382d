package sweepbook.analysis.runout.fit;

/**
 * A curve that comes round with every turn: mean + sum over its undulations of a cos(n t) + b sin(n t), t in radians.
 * Lengths in millimetres.
 */
public record Profile(double mean_mm, int[] upr, double[] cos_mm, double[] sin_mm) {
    public double at(double angle_rad) {
        double sum = mean_mm;
        for (int j = 0; j < upr.length; j++) {
            double t = upr[j] * angle_rad;
            sum += cos_mm[j] * Math.cos(t) + sin_mm[j] * Math.sin(t);
        }
        return sum;
    }

    /** The profile at so many equal steps of one turn, from angle zero. */
    public double[] sampled(int steps) {
        double[] samples = new double[steps];
        for (int i = 0; i < steps; i++) {
            samples[i] = at(2 * Math.PI * i / steps);
        }
        return samples;
    }

    /** The cosine part of one undulation number; 0 where the profile does not hold it. */
    public double cosOf_mm(int undulations) {
        int j = indexOf(undulations);
        return j < 0 ? 0 : cos_mm[j];
    }

    /** Its sine part. */
    public double sinOf_mm(int undulations) {
        int j = indexOf(undulations);
        return j < 0 ? 0 : sin_mm[j];
    }

    /** The amplitude of one undulation number; 0 where the profile does not hold it. */
    public double amplitude_mm(int undulations) {
        return Math.hypot(cosOf_mm(undulations), sinOf_mm(undulations));
    }

    /** Where the undulation is greatest in its own angle n t, in radians. */
    public double phase_rad(int undulations) {
        return Math.atan2(sinOf_mm(undulations), cosOf_mm(undulations));
    }

    /** The first harmonic as a vector: where the centre lies, cosine part first. */
    public double[] centre_mm() {
        return new double[] {cosOf_mm(1), sinOf_mm(1)};
    }

    /** The form alone: without the mean and the first harmonic. */
    public Profile aboutItsCentre() {
        double[] cos = cos_mm.clone();
        double[] sin = sin_mm.clone();
        int first = indexOf(1);
        if (first >= 0) {
            cos[first] = 0;
            sin[first] = 0;
        }
        return new Profile(0, upr, cos, sin);
    }

    public int indexOf(int undulations) {
        for (int j = 0; j < upr.length; j++) {
            if (upr[j] == undulations) {
                return j;
            }
        }
        return -1;
    }

    /** Root mean square of the undulations, the mean left out. */
    public double rms_mm() {
        double sum = 0;
        for (int j = 0; j < upr.length; j++) {
            sum += cos_mm[j] * cos_mm[j] + sin_mm[j] * sin_mm[j];
        }
        return Math.sqrt(sum / 2);
    }

    /** The undulations passed by a Gaussian filter with 50 % at the cut-off (ISO 16610-21); infinite passes all. */
    public Profile filtered(double cutoff_upr) {
        double[] cos = new double[upr.length];
        double[] sin = new double[upr.length];
        for (int j = 0; j < upr.length; j++) {
            double weight = gaussianWeight(upr[j], cutoff_upr);
            cos[j] = weight * cos_mm[j];
            sin[j] = weight * sin_mm[j];
        }
        return new Profile(mean_mm, upr, cos, sin);
    }

    /** exp(-pi (alpha n / n_c)^2) with alpha = sqrt(ln 2 / pi), which is 2^-(n / n_c)^2. */
    public static double gaussianWeight(double undulations, double cutoff_upr) {
        double ratio = undulations / cutoff_upr;
        return Math.pow(2, -ratio * ratio);
    }
}

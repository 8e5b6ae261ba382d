package sweepbook.analysis.sweep;

import org.hipparchus.util.FastMath;

/**
 * Readings with a smooth line beside them that no lone spike moves, for finding what happens where; numbers are taken
 * from the readings themselves. Readings and line count upwards in the direction of pressing.
 *
 * @param time_s times, never descending
 * @param pressed_mm readings, turned over where pressing lowers them
 * @param line_mm running median of five without the spikes
 * @param spike whether a reading is off the line by more than the motion about it allows
 * @param noise_mm standard deviation of a reading about the motion, resolution included, rough
 * @param resolution_mm step of the display; 0 where it could not be told
 * @param lineNoise standard deviation of the line about the motion, as a part of that of a reading
 */
record CleanTrace(
        double[] time_s,
        double[] pressed_mm,
        double[] line_mm,
        boolean[] spike,
        double noise_mm,
        double resolution_mm,
        double lineNoise) {
    /** Standard deviation of a median of five beside that of a reading, normal noise; tables of order statistics. */
    private static final double MEDIAN = 0.535;

    private static final int FEWEST = 50;
    /** Few of the readings of a trace stand still in one place. */
    private static final double STILL = 0.9;

    static CleanTrace of(double[] time_s, double[] reading_mm, int repeats, double resolution_mm) {
        double q = Double.isNaN(resolution_mm) ? 0 : resolution_mm;
        double least = 0.3 * q;
        double noise = StepNoise.of(reading_mm, Math.max(WindowNoise.of(reading_mm), least), least);
        if (repeats > 1) {
            // Passes of few readings would lose their crests to a median, and a slow display shows no lone spike.
            return new CleanTrace(time_s, reading_mm, reading_mm, new boolean[reading_mm.length], noise, q, 1);
        }
        SpikeMarks marks = new SpikeMarks(reading_mm, noise);
        return new CleanTrace(time_s, reading_mm, marks.line(), marks.spikes(), noise, q, MEDIAN);
    }

    int size() {
        return time_s.length;
    }

    /** The same trace seen with the other sense of pressing. */
    CleanTrace turnedOver() {
        return new CleanTrace(time_s, negated(pressed_mm), negated(line_mm), spike, noise_mm, resolution_mm, lineNoise);
    }

    /** The same trace with a steady drift taken out that counts from a given time. */
    CleanTrace without(double drift_mm_per_s, double since_s) {
        double[] pressed = pressed_mm.clone();
        double[] line = line_mm.clone();
        for (int i = 0; i < pressed.length; i++) {
            double shift = drift_mm_per_s * (time_s[i] - since_s);
            pressed[i] -= shift;
            line[i] -= shift;
        }
        return new CleanTrace(time_s, pressed, line, spike, noise_mm, resolution_mm, lineNoise);
    }

    /** Standard deviation of one reading, its rounding included. */
    double total_mm() {
        return Math.sqrt(noise_mm * noise_mm + resolution_mm * resolution_mm / 12);
    }

    /** A move that noise cannot feign. */
    double leastMove_mm() {
        return Math.max(2.5 * resolution_mm, apart_mm());
    }

    /** Within which a reading stands still. */
    double band_mm() {
        return Math.max(1.6 * resolution_mm, STILL * apart_mm());
    }

    /** Of so many points of the line, which noise alone moves, two hardly lie farther apart. */
    private double apart_mm() {
        double highest = FastMath.sqrt(2 * FastMath.log(Math.max(FEWEST, size())));
        return 2 * highest * lineNoise * total_mm();
    }

    /** The lowest point of the line from a reading (inclusive) to another (exclusive). */
    double lowest_mm(int from, int to) {
        double lowest = Double.POSITIVE_INFINITY;
        for (int i = from; i < to; i++) {
            lowest = line_mm[i] < lowest ? line_mm[i] : lowest;
        }
        return lowest;
    }

    /** The highest point of the line. */
    double highest_mm() {
        return highest_mm(0, line_mm.length);
    }

    /** The highest point of the line from a reading (inclusive) to another (exclusive). */
    double highest_mm(int from, int to) {
        double highest = Double.NEGATIVE_INFINITY;
        for (int i = from; i < to; i++) {
            highest = line_mm[i] > highest ? line_mm[i] : highest;
        }
        return highest;
    }

    /** How long the line takes about a top of it, from half a fall to half a fall, by the quicker side. */
    double halfFalls_s(int top, double level_mm, double fall_mm) {
        double half_mm = level_mm - fall_mm / 2;
        return 2 * Math.min(toLevel_s(top, half_mm, -1), toLevel_s(top, half_mm, +1));
    }

    private double toLevel_s(int top, double level_mm, int direction) {
        int i = top;
        while (i + direction >= 0 && i + direction < line_mm.length && line_mm[i] > level_mm) {
            i += direction;
        }
        return Math.abs(time_s[i] - time_s[top]);
    }

    private static double[] negated(double[] a) {
        double[] b = new double[a.length];
        for (int i = 0; i < a.length; i++) {
            b[i] = -a[i];
        }
        return b;
    }
}

package sweepbook.analysis.runout.fit;

import java.util.Arrays;

/**
 * Instants at which the angle is known: witness marks; without any, the start of the trace, which then is angle zero.
 *
 * @param stdU_rad standard uncertainty of each angle
 */
public record Anchors(double[] time_s, double[] angle_rad, double[] stdU_rad) {
    /** Less than matters to any figure, and not so little that the equations suffer. */
    public static final double SURE_RAD = 1e-4;

    /** No marks: the angle counts from the given time. */
    public static Anchors start(double time_s) {
        return new Anchors(new double[] {time_s}, new double[] {0}, new double[] {SURE_RAD});
    }

    /** The same instants, known so many times less well. */
    public Anchors looser(double times) {
        return new Anchors(
                time_s, angle_rad, Arrays.stream(stdU_rad).map(u -> times * u).toArray());
    }

    public int size() {
        return time_s.length;
    }
}

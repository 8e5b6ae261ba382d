package sweepbook.analysis.sweep;

/**
 * Follows the noise of single readings as they come, in constant time: the first quartile of the size of second differences,
 * which even motion leaves at nought, and a jog is in few of. Used by one thread.
 */
final class Scatter {
    /** For normal noise the quartile is 0.319 times their deviation, which is sqrt(6) times the noise's. */
    private static final double QUARTILE = 0.319 * Math.sqrt(6);

    private static final double PULL = 0.05;

    private final int apart;
    private final double[] last_mm;
    private int next;
    private boolean full;
    private double scatter_mm;

    /** From readings so many apart: noise that hangs together shows only far apart. */
    Scatter(int apart) {
        this.apart = apart;
        last_mm = new double[2 * apart];
    }

    void add(double reading_mm, double step_mm) {
        if (full) {
            double middle_mm = last_mm[next < apart ? next + apart : next - apart];
            double size_mm = Math.abs(reading_mm - 2 * middle_mm + last_mm[next]) * (1 / QUARTILE);
            double pull = PULL * Math.max(step_mm, scatter_mm);
            scatter_mm = Math.max(0, scatter_mm + (size_mm > scatter_mm ? 0.25 : -0.75) * pull);
        }
        last_mm[next++] = reading_mm;
        if (next == last_mm.length) {
            next = 0;
            full = true;
        }
    }

    /** What comes does not go on from what was; the scatter does. */
    void breakOff() {
        next = 0;
        full = false;
    }

    double scatter_mm() {
        return scatter_mm;
    }
}

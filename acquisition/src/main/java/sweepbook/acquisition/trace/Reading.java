package sweepbook.acquisition.trace;

/**
 * One value that the indicator sent.
 *
 * @param time_s when its first byte was sent, in seconds of a monotonic clock
 * @param reading_mm the value, in millimetres
 * @param mark whether a witness mark passes at this reading
 */
public record Reading(double time_s, double reading_mm, boolean mark) {
    public Reading {
        if (!Double.isFinite(time_s) || !Double.isFinite(reading_mm)) {
            throw new IllegalArgumentException(
                    "a reading needs a finite time and value, not " + time_s + " s, " + reading_mm + " mm");
        }
    }

    public Reading(double time_s, double reading_mm) {
        this(time_s, reading_mm, false);
    }
}

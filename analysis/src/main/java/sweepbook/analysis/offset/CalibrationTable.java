package sweepbook.analysis.offset;

import java.util.Comparator;
import java.util.List;
import sweepbook.analysis.uncertainty.Estimate;

/**
 * The indicator's deviation against its reading, from its calibration; between the points it is taken as straight. Its
 * own uncertainty belongs into {@link IndicatorLimits#permissibleError_mm()}, in place of the permissible error.
 */
public final class CalibrationTable {
    /**
     * @param deviation_mm reading less true value
     */
    public record Point(double reading_mm, double deviation_mm) {}

    private final List<Point> points;

    /** At least two points with different readings. */
    public CalibrationTable(List<Point> points) {
        this.points = points.stream()
                .sorted(Comparator.comparingDouble(Point::reading_mm))
                .toList();
        if (points.size() < 2) {
            throw new IllegalArgumentException("a calibration table needs two points, not " + points.size());
        }
        for (int i = 1; i < points.size(); i++) {
            if (this.points.get(i).reading_mm() == this.points.get(i - 1).reading_mm()) {
                throw new IllegalArgumentException("the calibration table has reading "
                        + this.points.get(i).reading_mm() + " mm twice");
            }
        }
    }

    /** The true value for a reading within the table. */
    public Estimate correct(Estimate reading) {
        Point first = points.get(0);
        Point last = points.get(points.size() - 1);
        if (reading.value() < first.reading_mm() || reading.value() > last.reading_mm()) {
            throw new IllegalArgumentException("reading " + reading.value() + " mm lies outside the calibrated "
                    + first.reading_mm() + " to " + last.reading_mm() + " mm");
        }
        int i = 1;
        while (points.get(i).reading_mm() < reading.value()) {
            i++;
        }
        Point below = points.get(i - 1);
        Point above = points.get(i);
        double slope = (above.deviation_mm() - below.deviation_mm()) / (above.reading_mm() - below.reading_mm());
        double deviation_mm = below.deviation_mm() + slope * (reading.value() - below.reading_mm());
        return new Estimate(
                reading.value() - deviation_mm, reading.stdU() * Math.abs(1 - slope), reading.degreesOfFreedom());
    }
}

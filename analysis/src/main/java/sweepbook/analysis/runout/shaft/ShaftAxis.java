package sweepbook.analysis.runout.shaft;

import java.util.List;
import sweepbook.analysis.uncertainty.Estimate;
import sweepbook.analysis.uncertainty.Finding;

/**
 * The axis of a shaft through the centres of its sections, against the axis of turning: a straight line by weighted
 * least squares in both planes, and what is left of it.
 *
 * @param stations in the order along the shaft
 * @param lean slope of the line, mm per mm
 * @param leanAngle_deg towards which angle it leans as one goes along
 * @param offset distance of the line from the axis of turning at the mean station
 * @param bend greatest distance of a section's centre from the line
 * @param bendAt_mm where that is
 */
public record ShaftAxis(
        List<Station> stations, Estimate lean, double leanAngle_deg, Estimate offset, Estimate bend, double bendAt_mm) {
    public ShaftAxis {
        stations = List.copyOf(stations);
    }

    /** The axis through the stations; a bend needs three. */
    public static Finding<ShaftAxis> of(List<Station> given) {
        List<Station> stations = given.stream()
                .sorted((a, b) -> Double.compare(a.along_mm(), b.along_mm()))
                .toList();
        if (stations.size() < 2
                || stations.get(0).along_mm()
                        == stations.get(stations.size() - 1).along_mm()) {
            return Finding.notDetermined("an axis needs two places along the shaft or more");
        }
        Line x = Line.through(stations, true);
        Line y = Line.through(stations, false);
        double lean = Math.hypot(x.slope, y.slope);
        double offset = Math.hypot(x.mean, y.mean);
        double bend = 0;
        Station at = stations.get(0);
        for (Station station : stations) {
            double off = Math.hypot(x.left(station, true), y.left(station, false));
            if (off > bend) {
                bend = off;
                at = station;
            }
        }
        double dof = stations.stream()
                .mapToDouble(s -> Math.min(s.x().degreesOfFreedom(), s.y().degreesOfFreedom()))
                .min()
                .orElseThrow();
        return Finding.found(new ShaftAxis(
                stations,
                new Estimate(lean, along(x.slope, y.slope, x.slopeU, y.slopeU), dof),
                Math.toDegrees(Math.atan2(y.slope, x.slope)),
                new Estimate(offset, along(x.mean, y.mean, x.meanU, y.meanU), dof),
                new Estimate(bend, Math.hypot(at.x().stdU(), at.y().stdU()) / Math.sqrt(2), dof),
                at.along_mm()));
    }

    /** Uncertainty of a vector's length. */
    private static double along(double x, double y, double ux, double uy) {
        double size = Math.hypot(x, y);
        return size == 0 ? Math.max(ux, uy) : Math.hypot(x * ux, y * uy) / size;
    }

    private record Line(double centre_mm, double mean, double meanU, double slope, double slopeU) {
        static Line through(List<Station> stations, boolean x) {
            double w0 = 0;
            double wz = 0;
            double wv = 0;
            for (Station s : stations) {
                double w = weight(s, x);
                w0 += w;
                wz += w * s.along_mm();
                wv += w * value(s, x);
            }
            double centre = wz / w0;
            double zz = 0;
            double zv = 0;
            for (Station s : stations) {
                double w = weight(s, x);
                zz += w * (s.along_mm() - centre) * (s.along_mm() - centre);
                zv += w * (s.along_mm() - centre) * value(s, x);
            }
            return new Line(centre, wv / w0, 1 / Math.sqrt(w0), zv / zz, 1 / Math.sqrt(zz));
        }

        private static double value(Station s, boolean x) {
            return (x ? s.x() : s.y()).value();
        }

        private static double weight(Station s, boolean x) {
            double u = Math.max((x ? s.x() : s.y()).stdU(), 1e-9);
            return 1 / (u * u);
        }

        double left(Station s, boolean x) {
            return value(s, x) - mean - slope * (s.along_mm() - centre_mm);
        }
    }
}

package sweepbook.cli.report;

import java.util.List;
import sweepbook.acquisition.trace.LengthUnit;
import sweepbook.analysis.runout.shaft.ShaftAxis;
import sweepbook.analysis.runout.shaft.Station;

/** The centres of a shaft's sections along its length, seen across its two planes, and what was measured of each. */
final class ShaftPicture {
    private ShaftPicture() {}

    static String svg(String id, ShaftAxis axis, LengthUnit unit) {
        List<Station> stations = axis.stations();
        double most = stations.stream()
                .mapToDouble(
                        s -> Math.max(Math.abs(s.x().value()) + s.x().u95(), Math.abs(s.y().value()) + s.y().u95()))
                .max()
                .orElseThrow();
        double from = stations.get(0).along_mm();
        double to = stations.get(stations.size() - 1).along_mm();
        double margin = 0.05 * (to - from);
        Picture picture = new Picture(
                id,
                "Along the shaft",
                "Where the centre of each section lies off the axis of turning, towards 0 and towards 90 degrees",
                PictureAxis.of("along the shaft, mm", from - margin, to + margin),
                PictureAxis.around(
                        "centre, " + unit.symbol(), -unit.fromMm(most), unit.fromMm(most), unit.fromMm(0.001)),
                List.of());
        picture.line(2, i -> i == 0 ? from - margin : to + margin, i -> 0, Double.POSITIVE_INFINITY, Ink.TRACE);
        picture.line(
                stations.size(),
                i -> stations.get(i).along_mm(),
                i -> unit.fromMm(stations.get(i).x().value()),
                Double.POSITIVE_INFINITY,
                Ink.FIRST);
        picture.line(
                stations.size(),
                i -> stations.get(i).along_mm(),
                i -> unit.fromMm(stations.get(i).y().value()),
                Double.POSITIVE_INFINITY,
                Ink.SECOND);
        for (Station s : stations) {
            picture.mark(s.along_mm(), unit.fromMm(s.x().value()), Picture.Shape.CIRCLE, Ink.FIRST, "");
            picture.mark(s.along_mm(), unit.fromMm(s.y().value()), Picture.Shape.CROSS, Ink.SECOND, "");
        }
        return picture.svg();
    }
}

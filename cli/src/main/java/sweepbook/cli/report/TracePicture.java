package sweepbook.cli.report;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.stream.Collectors;
import sweepbook.acquisition.trace.LengthUnit;
import sweepbook.acquisition.trace.Trace;
import sweepbook.analysis.sweep.Pass;
import sweepbook.analysis.sweep.Pressing;
import sweepbook.analysis.sweep.Segment;
import sweepbook.analysis.sweep.SweepFindings;
import sweepbook.analysis.uncertainty.Estimate;

/**
 * The trace of a touch with what was found in it, once whole and once magnified about the crest. Lengths are in the
 * unit that the indicator shows, times count from the first reading.
 */
final class TracePicture {
    static final String TIME = "time, s";
    private static final double MOST_NUMBERED_PASSES = 15;
    /** A hole in the trace is drawn as one where it is so many times wider than its readings lie apart. */
    private static final double HOLE = 8;

    private static final int MOST_DOTS = 600;

    private final String id;
    private final Trace trace;
    private final SweepFindings findings;
    private final LengthUnit unit;
    private final double start_s;

    /**
     * @param id unlike that of any other trace of the page
     * @param trace holds at least one reading
     */
    TracePicture(String id, Trace trace, SweepFindings findings) {
        this.id = id;
        this.trace = trace;
        this.findings = findings;
        this.unit = trace.unit();
        this.start_s = trace.time_s(0);
    }

    /** The whole trace. */
    String whole() {
        double least = Double.POSITIVE_INFINITY;
        double greatest = Double.NEGATIVE_INFINITY;
        for (int i = 0; i < trace.size(); i++) {
            least = Math.min(least, reading(i));
            greatest = Math.max(greatest, reading(i));
        }
        double end = Math.max(time(trace.size() - 1), 0.1);
        Picture picture = new Picture(
                id + "-whole",
                "The whole trace",
                description(),
                PictureAxis.of(TIME, 0, end),
                PictureAxis.around(readingLabel(), least, greatest, unit.fromMm(10 * step_mm())),
                stretches());
        line(picture, 0, trace.size());
        findings.highSpot()
                .asOptional()
                .ifPresent(high -> picture.level(
                        unit.fromMm(high.value()),
                        unit.fromMm(high.u95()),
                        firstPass_s(),
                        end,
                        Ink.FIRST,
                        "high spot " + Figures.value(high, unit)));
        findings.stableZero()
                .asOptional()
                .ifPresent(zero -> picture.level(
                        unit.fromMm(zero.level().value()),
                        unit.fromMm(zero.level().u95()),
                        zero.from_s() - start_s,
                        zero.to_s() - start_s,
                        Ink.SECOND,
                        "stable zero " + Figures.value(zero.level(), unit)));
        passes(picture);
        return picture.svg();
    }

    /** The crest a few steps of the display wide; empty where no high spot was found. */
    Optional<String> crest() {
        return findings.highSpot().asOptional().map(this::crest);
    }

    private String crest(Estimate high) {
        double sign = findings.pressing().orElse(Pressing.RAISES).sign();
        double wide_mm = Math.max(Math.max(4 * step_mm(), 3 * high.u95()), noise_mm() * 4);
        double miss_mm = findings.crestMiss()
                .asOptional()
                .map(miss -> Math.min(Math.abs(miss.value()), 20 * wide_mm))
                .orElse(0.0);
        double outer = unit.fromMm(high.value() + sign * 1.7 * wide_mm);
        double inner = unit.fromMm(high.value() - sign * Math.max(2.5 * wide_mm, 1.25 * miss_mm));
        Optional<Segment> dwell = segment(Segment.Kind.CREST_DWELL);
        double from = firstPass_s();
        double to = dwell.map(Segment::to_s).orElse(lastPass_s()) - start_s;
        int first = firstReadingAt(from);
        int last = firstReadingAt(to);
        if (last - first < 2) {
            from = 0;
            to = time(trace.size() - 1);
            first = 0;
            last = trace.size();
        }
        Picture picture = new Picture(
                id + "-crest",
                "The crest, magnified",
                "Readings close to the high spot of " + Figures.withU95(high, unit) + ".",
                PictureAxis.of(TIME, from, Math.max(to, from + 0.1)),
                PictureAxis.of(readingLabel(), Math.min(inner, outer), Math.max(inner, outer)),
                stretches());
        line(picture, first, last);
        dots(picture, first, last);
        picture.level(
                unit.fromMm(high.value()),
                unit.fromMm(high.u95()),
                from,
                Math.max(to, from + 0.1),
                Ink.FIRST,
                "high spot " + Figures.withU95(high, unit));
        passes(picture);
        dwell.ifPresent(segment -> miss(picture, high, segment));
        return picture.svg();
    }

    private void miss(Picture picture, Estimate high, Segment dwell) {
        findings.crestMiss().asOptional().ifPresent(miss -> {
            double level = unit.fromMm(high.value() - miss.value());
            double from = dwell.from_s() - start_s;
            double to = dwell.to_s() - start_s;
            picture.level(level, unit.fromMm(miss.u95()), from, to, Ink.SECOND, "");
            picture.distance(
                    (from + to) / 2,
                    unit.fromMm(high.value()),
                    level,
                    Ink.SECOND,
                    "crest miss " + Figures.value(miss, unit));
        });
    }

    private void line(Picture picture, int from, int to) {
        int readings = to - from;
        double span_s = readings < 2 ? 0 : time(to - 1) - time(from);
        picture.line(readings, i -> time(from + i), i -> reading(from + i), hole_s(readings, span_s), Ink.TRACE);
    }

    /** From here on a gap between readings is drawn as a hole. */
    static double hole_s(int readings, double span_s) {
        return readings < 2 ? 0 : HOLE * span_s / (readings - 1);
    }

    private void dots(Picture picture, int from, int to) {
        if (to - from <= MOST_DOTS) {
            picture.dots(to - from, i -> time(from + i), i -> reading(from + i), Ink.TRACE);
        }
    }

    private void passes(Picture picture) {
        Picture.Shape shape = findings.pressing()
                .map(p -> p == Pressing.RAISES ? Picture.Shape.POINTS_DOWN : Picture.Shape.POINTS_UP)
                .orElse(Picture.Shape.CIRCLE);
        int number = 0;
        for (Pass pass : findings.passes()) {
            number++;
            String label = findings.passes().size() <= MOST_NUMBERED_PASSES ? Integer.toString(number) : "";
            double at = pass.crest_s() - start_s;
            double crest = unit.fromMm(pass.crest_mm());
            if (pass.setAside().isPresent()) {
                picture.mark(at, crest, Picture.Shape.CROSS, Ink.SECOND, label);
            } else {
                picture.mark(at, crest, shape, Ink.FIRST, label);
            }
        }
    }

    private List<Picture.Stretch> stretches() {
        List<Picture.Stretch> stretches = new ArrayList<>();
        for (Segment segment : findings.segments()) {
            stretches.add(new Picture.Stretch(
                    segment.from_s() - start_s, segment.to_s() - start_s, ink(segment.kind()), names(segment.kind())));
        }
        return stretches;
    }

    private static Ink ink(Segment.Kind kind) {
        return switch (kind) {
            case FREE, OTHER -> Ink.FAINT;
            case PRESS_IN, JOG -> Ink.TRACE;
            case SWEEP -> Ink.FIRST;
            case CREST_DWELL -> Ink.SECOND;
            case STABLE_ZERO -> Ink.THIRD;
        };
    }

    /** From the full name to what fits a narrow stretch. */
    private static List<String> names(Segment.Kind kind) {
        return switch (kind) {
            case FREE -> List.of("free");
            case PRESS_IN -> List.of("press-in", "in");
            case SWEEP -> List.of("sweep");
            case CREST_DWELL -> List.of("dwell on the crest", "on crest", "crest");
            case JOG -> List.of("jog");
            case STABLE_ZERO -> List.of("stable zero", "zero");
            case OTHER -> List.of("other motion", "other");
        };
    }

    /** What happened when, in words. */
    String description() {
        return findings.segments().stream()
                        .filter(s -> s.to_s() - s.from_s() >= 0.1)
                        .map(s -> names(s.kind()).get(0) + " " + Figures.plain(s.from_s() - start_s, 1) + " to "
                                + Figures.plain(s.to_s() - start_s, 1) + " s")
                        .collect(Collectors.joining(", "))
                + "; " + trace.size() + " readings.";
    }

    private Optional<Segment> segment(Segment.Kind kind) {
        return findings.segments().stream().filter(s -> s.kind() == kind).reduce((earlier, later) -> later);
    }

    private double firstPass_s() {
        return findings.passes().stream().mapToDouble(Pass::from_s).min().orElse(start_s) - start_s;
    }

    private double lastPass_s() {
        return findings.passes().stream().mapToDouble(Pass::to_s).max().orElse(trace.time_s(trace.size() - 1));
    }

    private int firstReadingAt(double time) {
        int low = 0;
        int high = trace.size();
        while (low < high) {
            int middle = (low + high) >>> 1;
            if (time(middle) < time) {
                low = middle + 1;
            } else {
                high = middle;
            }
        }
        return low;
    }

    /** Seconds from the first reading. */
    private double time(int i) {
        return trace.time_s(i) - start_s;
    }

    private double reading(int i) {
        return unit.fromMm(trace.reading_mm(i));
    }

    private String readingLabel() {
        return readingLabel(unit);
    }

    static String readingLabel(LengthUnit unit) {
        return "reading, " + unit.symbol();
    }

    /** The display's step, or something of its size where it is not known. */
    private double step_mm() {
        double step_mm = findings.resolution_mm();
        return step_mm > 0 ? step_mm : Math.max(noise_mm(), 0.001);
    }

    private double noise_mm() {
        return findings.noise_mm() > 0 ? findings.noise_mm() : 0;
    }
}

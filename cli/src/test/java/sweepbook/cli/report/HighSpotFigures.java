package sweepbook.cli.report;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.function.DoubleUnaryOperator;
import java.util.stream.Stream;
import org.hipparchus.special.Erf;
import sweepbook.acquisition.trace.Trace;
import sweepbook.analysis.sweep.StableZero;
import sweepbook.analysis.sweep.SweepReader;
import sweepbook.analysis.sweep.SweepSettings;
import sweepbook.analysis.uncertainty.Finding;
import sweepbook.cli.proof.GeneralTool;
import sweepbook.cli.proof.HighSpotProof;
import sweepbook.simulator.trial.RestKind;
import sweepbook.simulator.trial.RestTrial;
import sweepbook.simulator.trial.SweepKind;
import sweepbook.simulator.trial.SweepTrial;
import sweepbook.simulator.trial.SweepTrials;

/**
 * Draws the figures of {@code analysis/docs/high-spot.md} and {@code stable-zero.md} again, on invented traces of the simulator; the argument is the
 * folder: {@code java -cp cli/target/test-classes:cli/target/sweepbook.jar sweepbook.cli.report.HighSpotFigures
 * analysis/docs}.
 */
final class HighSpotFigures {
    private static final int SEEDS = 60;
    private static final long FIRST = 5_550_000;

    private HighSpotFigures() {}

    public static void main(String[] args) throws IOException {
        for (Map.Entry<String, String> figure : drawn(SEEDS).entrySet()) {
            Files.writeString(Path.of(args[0], figure.getKey()), figure.getValue() + "\n");
        }
    }

    /** File names and figures. */
    static Map<String, String> drawn(int seeds) {
        Map<String, String> figures = new LinkedHashMap<>();
        figures.put("high-spot-sweep.svg", sweep());
        figures.put("high-spot-rounding.svg", rounding());
        figures.put("high-spot-errors.svg", errors(seeds));
        figures.put("high-spot-creep.svg", rest(RestKind.CREEP, 10, "creep"));
        figures.put("high-spot-settling.svg", rest(RestKind.SETTLING, 3, "settling"));
        return figures;
    }

    private static String sweep() {
        SweepTrial trial = SweepTrials.of(SweepKind.CLEAN, 1);
        Trace trace = trial.trace();
        SweepSettings settings = new SweepSettings(Optional.empty(), trace.resolution_mm());
        String whole = new TracePicture("sweep", trace, SweepReader.read(trace, settings)).whole();
        return whole.substring(whole.indexOf("<svg"), whole.lastIndexOf("</svg>") + "</svg>".length());
    }

    /** What a reading of 0 says of the level behind it. */
    private static String rounding() {
        Picture picture = new Picture(
                "rounding",
                "Likelihood of a rounded reading",
                "Likelihood of the true level behind a reading of 0, for noise of 0.05, 0.3 and 1 step",
                PictureAxis.of("true level, steps from the reading", -2, 2),
                PictureAxis.of("likelihood", 0, 1.1),
                List.of());
        likelihood(picture, 0.05, Ink.FIRST, 0.35);
        likelihood(picture, 0.3, Ink.SECOND, -0.55);
        likelihood(picture, 1, Ink.TRACE, 1.25);
        return picture.svg();
    }

    private static void likelihood(Picture picture, double noise, Ink ink, double labelAt) {
        DoubleUnaryOperator of = level -> {
            double scale = noise * Math.sqrt(2);
            return Erf.erf((-0.5 - level) / scale, (0.5 - level) / scale) / 2;
        };
        int points = 401;
        picture.line(
                points, i -> level(i, points), i -> of.applyAsDouble(level(i, points)), Double.POSITIVE_INFINITY, ink);
        picture.mark(
                labelAt,
                of.applyAsDouble(labelAt),
                Picture.Shape.CIRCLE,
                ink,
                "noise " + Double.toString(noise) + " steps");
    }

    private static double level(int i, int points) {
        return -2 + 4.0 * i / (points - 1);
    }

    private static String errors(int seeds) {
        List<ErrorChart.Row> rows = new ArrayList<>();
        for (SweepKind kind : SweepKind.values()) {
            HighSpotProof proof = HighSpotProof.of(kind, FIRST, FIRST + seeds);
            double best = Stream.of(GeneralTool.values())
                    .mapToDouble(tool -> proof.tool(tool).rmsInBounds())
                    .min()
                    .orElseThrow();
            rows.add(new ErrorChart.Row(kind.toString(), proof.highSpot().rmsInBounds(), best));
        }
        return ErrorChart.svg(
                rows,
                "Error of the high spot, kind by kind",
                "Root mean square error over the least possible, " + seeds + " sweeps a kind: "
                        + String.join(
                                "; ", rows.stream().map(ErrorChart.Row::inWords).toList()));
    }

    private static String rest(RestKind kind, long seed, String id) {
        RestTrial trial = RestTrial.of(kind, seed);
        Trace trace = trial.trace();
        double q_mm = trace.resolution_mm();
        int first = 0;
        while (trace.time_s(first) < trial.from_s()) {
            first++;
        }
        int from = first;
        int n = trace.size() - from;
        int every = Math.max(1, n / 500);
        double end = (trial.level_mm().applyAsDouble(trial.from_s() + 20)
                        - trial.level_mm().applyAsDouble(trial.from_s()))
                / q_mm;
        double begin_mm = trial.level_mm().applyAsDouble(trial.from_s());
        Finding<StableZero> zero = SweepReader.read(trace, new SweepSettings(Optional.empty(), q_mm))
                .stableZero();
        String found = zero.asOptional().isPresent() ? "the stable zero that is found" : "no stable zero is found";
        Picture picture = new Picture(
                id,
                kind == RestKind.CREEP ? "A rest that creeps" : "A rest that settles",
                "Readings after the last click in steps of the display, and the true level; " + found,
                PictureAxis.of("time since the click, s", 0, 20),
                PictureAxis.around("reading, steps", Math.min(end, 0), Math.max(end, 0), 10),
                List.of());
        picture.dots(
                n / every,
                i -> trace.time_s(from + i * every) - trial.from_s(),
                i -> (trace.reading_mm(from + i * every) - begin_mm) / q_mm,
                Ink.FAINT);
        picture.line(
                200,
                i -> i * 0.1,
                i -> (trial.level_mm().applyAsDouble(trial.from_s() + i * 0.1) - begin_mm) / q_mm,
                Double.POSITIVE_INFINITY,
                Ink.TRACE);
        zero.asOptional()
                .ifPresent(z -> picture.level(
                        (z.level().value() - begin_mm) / q_mm,
                        z.level().u95() / q_mm,
                        z.from_s() - trial.from_s(),
                        z.to_s() - trial.from_s(),
                        Ink.SECOND,
                        "stable zero"));
        return picture.svg();
    }
}

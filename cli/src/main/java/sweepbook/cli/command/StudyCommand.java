package sweepbook.cli.command;

import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.io.IOException;
import java.io.PrintWriter;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import java.util.concurrent.Callable;
import java.util.stream.DoubleStream;
import java.util.stream.Stream;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;
import sweepbook.analysis.runout.series.GaugeStudy;
import sweepbook.cli.plan.TextFile;

/** Tells how much of the spread of measured pieces is the measuring's. */
@Command(
        name = "study",
        description = "Gauge study: how much of the spread of measured pieces is the measuring's.",
        footer = "FILE holds a header row piece,person,value and a row for each measurement; every person measures"
                + " every piece as often. Values may be in any unit; the results are in the same.")
final class StudyCommand implements Callable<Integer> {
    private static final List<String> HEAD = List.of("piece", "person", "value");

    @Spec
    private CommandSpec spec;

    @Option(names = "--json", description = "Print one JSON object.")
    private boolean json;

    @Parameters(paramLabel = "FILE", description = "The measurements (CSV).")
    private Path file;

    @Override
    public Integer call() throws IOException, UserFault {
        double[][][] values = values();
        if (Stream.of(values).flatMap(Stream::of).allMatch(StudyCommand::areTheSame)) {
            throw new UserFault(
                    ExitStatus.NOT_DETERMINED,
                    file
                            + ": nobody's repeats differ at all, which tells of the display's step and not of the measuring;"
                            + " study it with a finer display");
        }
        GaugeStudy study = GaugeStudy.of(values);
        PrintWriter out = spec.commandLine().getOut();
        if (json) {
            out.println(object(study));
        } else {
            table(out, study);
        }
        out.flush();
        return ExitStatus.DONE;
    }

    private static boolean areTheSame(double[] repeats) {
        return DoubleStream.of(repeats).allMatch(value -> value == repeats[0]);
    }

    private double[][][] values() throws IOException, UserFault {
        Map<String, Map<String, List<Double>>> byPiece = new LinkedHashMap<>();
        Set<String> persons = new LinkedHashSet<>();
        List<String> lines =
                TextFile.read(file, "a file of measurements (CSV)").lines().toList();
        boolean header = false;
        for (int i = 0; i < lines.size(); i++) {
            String line = lines.get(i).strip();
            if (line.isEmpty() || line.startsWith("#")) {
                continue;
            }
            List<String> cells = List.of(line.split("\\s*,\\s*", -1));
            if (!header) {
                header = true;
                if (!cells.equals(HEAD)) {
                    throw bad(i, "the header must be piece,person,value");
                }
                continue;
            }
            if (cells.size() != HEAD.size()) {
                throw bad(i, "a row needs a piece, a person and a value");
            }
            persons.add(cells.get(1));
            byPiece.computeIfAbsent(cells.get(0), piece -> new LinkedHashMap<>())
                    .computeIfAbsent(cells.get(1), person -> new ArrayList<>())
                    .add(number(cells.get(2), i));
        }
        return full(byPiece, persons);
    }

    private double number(String text, int line) throws UserFault {
        try {
            double value = Double.parseDouble(text);
            if (Double.isFinite(value)) {
                return value;
            }
        } catch (NumberFormatException notANumber) {
            // Told below, like a number without an end.
        }
        throw bad(line, "'" + text + "' is not a number");
    }

    private UserFault bad(int line, String what) {
        return UserFault.wrongUse(file + ", line " + (line + 1) + ": " + what);
    }

    private double[][][] full(Map<String, Map<String, List<Double>>> byPiece, Set<String> persons) throws UserFault {
        List<double[][]> pieces = new ArrayList<>();
        int repeats = -1;
        for (Map.Entry<String, Map<String, List<Double>>> piece : byPiece.entrySet()) {
            List<double[]> cells = new ArrayList<>();
            for (String person : persons) {
                List<Double> cell = piece.getValue().getOrDefault(person, List.of());
                repeats = repeats < 0 ? cell.size() : repeats;
                if (cell.size() != repeats) {
                    throw UserFault.wrongUse(file + ": piece " + piece.getKey() + " was measured " + cell.size()
                            + " times by " + person + ", others " + repeats + " times; every person must measure every"
                            + " piece as often");
                }
                cells.add(cell.stream().mapToDouble(Double::doubleValue).toArray());
            }
            pieces.add(cells.toArray(double[][]::new));
        }
        if (pieces.size() < 2 || persons.size() < 2 || repeats < 2) {
            throw UserFault.wrongUse(file + ": a gauge study needs two pieces, two persons and two repeats or more");
        }
        return pieces.toArray(double[][][]::new);
    }

    private static ObjectNode object(GaugeStudy study) {
        ObjectNode object = new ObjectMapper().createObjectNode();
        object.put("repeatability", study.repeatability_mm());
        object.put("reproducibility", study.reproducibility_mm());
        object.put("measuring", study.measuring_mm());
        object.put("betweenPieces", study.betweenPieces_mm());
        object.put("total", study.total_mm());
        object.put("distinctClasses", study.distinctClasses());
        object.put("interactionStands", study.interactionStands());
        return object;
    }

    private static void table(PrintWriter out, GaugeStudy study) {
        out.printf(Locale.ROOT, "%-18s %14s %5s %14s%n", "source", "sum of squares", "dof", "mean square");
        source(out, "pieces", study.piece());
        source(out, "persons", study.person());
        source(out, "piece by person", study.interaction());
        source(out, "repeats", study.repeat());
        out.println(study.interactionStands() ? "persons differ on some pieces and not on others (5 %)" : "");
        out.printf(Locale.ROOT, "%-18s %14s %9s%n", "spread", "std deviation", "of total");
        spread(out, "repeatability", study.repeatability_mm(), study);
        spread(out, "reproducibility", study.reproducibility_mm(), study);
        spread(out, "measuring", study.measuring_mm(), study);
        spread(out, "between pieces", study.betweenPieces_mm(), study);
        spread(out, "total", study.total_mm(), study);
        out.println("such pieces can be sorted into " + study.distinctClasses() + " classes");
    }

    private static void source(PrintWriter out, String name, GaugeStudy.Source source) {
        out.printf(
                Locale.ROOT,
                "%-18s %14.6g %5d %14.6g%n",
                name,
                source.sumOfSquares(),
                source.degreesOfFreedom(),
                source.meanSquare());
    }

    private static void spread(PrintWriter out, String name, double spread, GaugeStudy study) {
        out.printf(Locale.ROOT, "%-18s %14.6g %7.1f %%%n", name, spread, 100 * spread / study.total_mm());
    }
}

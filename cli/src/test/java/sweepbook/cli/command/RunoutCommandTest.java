package sweepbook.cli.command;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.security.MessageDigest;
import java.util.ArrayList;
import java.util.HexFormat;
import java.util.List;
import java.util.Locale;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import sweepbook.acquisition.trace.TraceCsvWriter;
import sweepbook.simulator.trial.Harmonic;
import sweepbook.simulator.trial.SeparationTrial;
import sweepbook.simulator.trial.SeparationTrials;

class RunoutCommandTest extends RunsCommands {
    private static final List<String> KEYS = List.of(
            "file",
            "unit",
            "turns",
            "fim",
            "fimU95",
            "eccentricity",
            "eccentricityU95",
            "highSpotAngle_deg",
            "outOfRoundness",
            "outOfRoundnessMethod",
            "harmonics",
            "turnRepeatability",
            "warnings");

    @TempDir
    Path folder;

    /** Turns at 100 readings each with 0.002 in eccentricity, greatest 70 degrees after the mark, and an oval. */
    private Path turned(double turns, boolean marked) throws IOException {
        StringBuilder csv = new StringBuilder(marked ? "time_s,reading_in,mark\n" : "time_s,reading_in\n");
        for (int i = 0; i < 100 * turns; i++) {
            double t = 2 * Math.PI * (i - 30) / 100;
            double in = 0.01 + 0.002 * Math.cos(t - Math.toRadians(70)) + 0.0003 * Math.cos(2 * t);
            csv.append(String.format(Locale.ROOT, "%.2f,%.5f", i * 0.05, Math.round(in / 5e-5) * 5e-5));
            csv.append(marked ? (i % 100 == 30 ? ",1\n" : ",0\n") : "\n");
        }
        return Files.writeString(folder.resolve("turned.csv"), csv);
    }

    @Test
    void tellsTheFiguresInTheTracesUnit() throws IOException {
        assertEquals(
                ExitStatus.DONE, execute("runout", "--json", turned(4, true).toString()), err.toString());
        JsonNode found = new ObjectMapper().readTree(out.toString());
        KEYS.forEach(key -> assertTrue(found.has(key), key));
        assertEquals("in", found.get("unit").asText());
        assertEquals(4, found.get("turns").asInt());
        assertEquals(0.002, found.get("eccentricity").asDouble(), 1e-5);
        assertEquals(70, found.get("highSpotAngle_deg").asDouble(), 1);
        assertEquals(0.0006, found.get("outOfRoundness").asDouble(), 2.5e-5);
        JsonNode second = found.get("harmonics").get(1);
        assertEquals(2, second.get("upr").asInt());
        assertEquals(0.0003, second.get("amplitude").asDouble(), 1e-5);
    }

    /** Law: whoever holds file and figures later can tell that they belong together, and what they were held against. */
    @Test
    void figuresNameTheFileTheyWereFoundInAndTheLimit() throws Exception {
        Path trace = turned(4, true);
        Files.writeString(trace, "# drawn by hand\n" + Files.readString(trace));
        byte[] hash = MessageDigest.getInstance("SHA-256").digest(Files.readAllBytes(trace));
        String sha256 = HexFormat.of().formatHex(hash);
        Path page = folder.resolve("page.html");
        assertEquals(
                ExitStatus.DONE,
                execute(
                        "runout",
                        "--json",
                        "--fim-limit",
                        "0.005",
                        "--permissible-error",
                        "0.0001",
                        "--report",
                        page.toString(),
                        trace.toString()),
                err.toString());
        JsonNode found = new ObjectMapper().readTree(out.toString());
        assertEquals(sha256, found.get("sha256").asText());
        assertTrue(found.get("decision").asText().startsWith("conforms (at most 0.005000 in; "), out.toString());
        String html = Files.readString(page);
        for (String held : List.of(sha256, "drawn by hand", "400 in 20.0 s", "at most 0.005000 in", "0.0001\u00a0in")) {
            assertTrue(html.contains(held), held);
        }
    }

    /** One turn at typed angles cannot tell a drift from the part: none is claimed to be known without any doubt. */
    @Test
    void aDriftThatOneTurnDoesNotTellIsLeftOut() throws IOException {
        Path stations = folder.resolve("stations.csv");
        run("example", "--part", "stations", "--seed", "3", "--out", stations);
        assertEquals(ExitStatus.DONE, run("runout", stations), err.toString());
        assertTrue(out.toString().contains("noise of a reading"), out.toString());
        assertFalse(out.toString().contains("drift"), out.toString());
        out.getBuffer().setLength(0);
        run("runout", "--json", stations);
        JsonNode found = new ObjectMapper().readTree(out.toString());
        assertTrue(found.get("drift").isNull() && found.get("driftU95").isNull(), out.toString());
    }

    @Test
    void hasNoAngleWithoutMarks() throws IOException {
        assertEquals(
                ExitStatus.DONE, execute("runout", "--json", turned(3, false).toString()), out.toString());
        JsonNode found = new ObjectMapper().readTree(out.toString());
        assertTrue(found.get("highSpotAngle_deg").isNull());
        assertEquals(0.002, found.get("eccentricity").asDouble(), 1e-5);
    }

    @Test
    void saysWhyLessThanATurnGivesNoFigures() throws IOException {
        assertEquals(
                ExitStatus.NOT_DETERMINED,
                execute("runout", "--json", turned(0.7, false).toString()));
        JsonNode found = new ObjectMapper().readTree(out.toString());
        KEYS.forEach(key -> assertTrue(found.has(key), key));
        assertTrue(found.get("fim").isNull());
        assertTrue(found.get("reason").asText().contains("turn"), found.toString());
    }

    @Test
    void aFolderBecomesATableWithCapability() throws IOException {
        for (int k = 0; k < 4; k++) {
            Files.copy(turned(3 + 0.3 * k, true), folder.resolve("=part" + k + ".csv"));
        }
        Files.delete(folder.resolve("turned.csv"));
        assertEquals(
                ExitStatus.DONE, execute("runout", "--csv", "--fim-limit", "0.006", folder.toString()), err.toString());
        List<String> lines = out.toString().lines().toList();
        assertEquals(5, lines.size());
        assertTrue(lines.get(1).contains("conforms"), lines.get(1));
        assertTrue(err.toString().contains("Cpk"), err.toString());
    }

    @Test
    void noCellOfTheTableIsTakenForAFormula() {
        assertEquals("\"'=1+1\"", RunoutCsv.text("=1+1"));
        assertEquals("\"'@a \"\"b\"\"\"", RunoutCsv.text("@a \"b\""));
        assertEquals("\"'-1 mm\"", RunoutCsv.text("-1 mm"));
        assertEquals("\"plain, words\"", RunoutCsv.text("plain, words"));
    }

    @Test
    void thePageHasThreePictures() throws IOException {
        Path page = folder.resolve("page.html");
        assertEquals(
                ExitStatus.DONE,
                execute("runout", "--report", page.toString(), turned(4, true).toString()),
                err.toString());
        String html = Files.readString(page);
        assertEquals(3, html.split("<svg", -1).length - 1);
        for (String picture : List.of("Polar picture", "Unrolled picture", "Harmonic picture")) {
            assertTrue(html.contains(picture), picture);
        }
        assertTrue(!html.contains("http-equiv") && !html.contains("<script"), "self-contained");
    }

    @Test
    void aLinkIsRecordedFirst() throws IOException {
        Path again = folder.resolve("again.csv");
        assertEquals(
                ExitStatus.DONE,
                execute("runout", "--json", "--out", again.toString(), "replay:" + turned(4, true)),
                err.toString());
        JsonNode found = new ObjectMapper().readTree(out.toString());
        assertEquals(again.toString(), found.get("file").asText());
        assertEquals(0.002, found.get("eccentricity").asDouble(), 1e-5);
        assertTrue(Files.exists(again));
    }

    @Test
    void wrongUseIsOneLine() throws IOException {
        assertEquals(
                ExitStatus.WRONG_USE,
                execute("runout", "--circle", "round", turned(3, true).toString()));
        assertEquals(1, err.toString().lines().count(), err.toString());
        assertEquals(
                ExitStatus.WRONG_USE,
                execute("runout", folder.resolve("none.csv").toString()));
        assertEquals(ExitStatus.WRONG_USE, execute("runout", "tcp:localhost:1"));
    }

    /** Law: within the U95 of what was read lies the movement that is told. */
    @Test
    void theMovementAsReadHoldsTheMovement() throws IOException {
        execute("runout", "--json", turned(3, true).toString());
        JsonNode json = new ObjectMapper().readTree(out.toString());
        double off = Math.abs(json.get("fimRaw").asDouble() - json.get("fim").asDouble());
        assertTrue(json.get("fimRawU95").asDouble() >= off + json.get("fimU95").asDouble() * (1 - 1e-9));
    }

    /** Law: an eccentricity that grows evenly along the shaft is a lean. */
    @Test
    void placesAlongAShaftGiveItsLean() throws IOException {
        List<String> args = new ArrayList<>(List.of("runout", "--along", "0,100,200"));
        for (int k = 0; k < 3; k++) {
            StringBuilder csv = new StringBuilder("time_s,reading_mm,mark\n");
            for (int i = 0; i < 400; i++) {
                double mm = 0.02 * (k + 1) * Math.cos(2 * Math.PI * i / 100 - 1);
                csv.append(String.format(Locale.ROOT, "%.2f,%.4f,%d%n", 0.05 * i, mm, i % 100 == 0 ? 1 : 0));
            }
            args.add(Files.writeString(folder.resolve("at" + k + ".csv"), csv).toString());
        }
        assertEquals(ExitStatus.DONE, execute(args.toArray(String[]::new)), err.toString());
        assertTrue(out.toString().contains("leans by 0.200"), out.toString());
        Matcher towards = Pattern.compile("towards (\\d+) degrees").matcher(out.toString());
        assertTrue(towards.find(), out.toString());
        // One radian, and marks that are told to half of 3.6 degrees.
        assertEquals(57.3, Double.parseDouble(towards.group(1)), 1.8, out.toString());
    }

    /** Law: with a spindle that runs true both runs are the part. */
    @Test
    void twoRunsOfAReversalTellPartFromSpindle() throws IOException {
        String before =
                Files.move(turned(5, true), folder.resolve("before.csv")).toString();
        String after = turned(4, true).toString();
        assertEquals(ExitStatus.DONE, execute("runout", "--reversal", before, after), err.toString());
        assertTrue(out.toString().contains("spindle alone, peak to valley: 0.00000"), out.toString());
        assertEquals(ExitStatus.WRONG_USE, execute("runout", "--reversal", after));
    }

    /** Law: a copy is no second run; it would show a spindle that is perfect for certain. */
    @Test
    void aRunCannotBeSetAgainstACopyOfItself() throws IOException {
        Path run = turned(4, true);
        Path copy = Files.copy(run, folder.resolve("copy.csv"));
        for (String option : List.of("--reversal", "--steps", "--along=10,20")) {
            assertEquals(ExitStatus.WRONG_USE, execute("runout", option, run.toString(), copy.toString()));
            assertTrue(err.toString().contains("copy.csv holds the same bytes as"), err.toString());
        }
        assertEquals(ExitStatus.DONE, execute("runout", run.toString(), copy.toString()), err.toString());
        assertTrue(out.toString().contains("one part counts twice"), out.toString());
    }

    /** Law: a limit without a unit of its own is not applied to traces in two units. */
    @Test
    void aTypedLengthIsForOneUnit() throws IOException {
        Path in = turned(4, true);
        Path mm = folder.resolve("mm.csv");
        Files.writeString(mm, Files.readString(in).replace("reading_in", "reading_mm"));
        for (String option : List.of("--fim-limit=0.005", "--permissible-error=0.0005")) {
            assertEquals(ExitStatus.WRONG_USE, execute("runout", option, in.toString(), mm.toString()));
            assertTrue(err.toString().contains(option.substring(0, option.indexOf('='))), err.toString());
        }
        assertEquals(ExitStatus.DONE, execute("runout", in.toString(), mm.toString()), err.toString());
    }

    /** What U95 says of a figure that a line of the output names. */
    private double[] told(String name) {
        String line = out.toString()
                .lines()
                .filter(l -> l.startsWith(name))
                .findFirst()
                .orElseThrow(() -> new AssertionError(name + " is not in " + out));
        Matcher figures = Pattern.compile(": ([0-9.]+) mm, within ([0-9.]+)").matcher(line);
        assertTrue(figures.find(), line);
        return new double[] {Double.parseDouble(figures.group(1)), Double.parseDouble(figures.group(2))};
    }

    private static double range_mm(List<Harmonic> form, int withoutMultiplesOf) {
        double least = Double.POSITIVE_INFINITY;
        double greatest = Double.NEGATIVE_INFINITY;
        for (int i = 0; i < 3600; i++) {
            double sum = 0;
            for (Harmonic h : form) {
                double turned = Math.toRadians(h.upr() * i / 10.0 - h.phase_deg());
                sum += h.upr() % withoutMultiplesOf == 0 ? 0 : h.amplitude_mm() * Math.cos(turned);
            }
            least = Math.min(least, sum);
            greatest = Math.max(greatest, sum);
        }
        return greatest - least;
    }

    private void separated(String option, SeparationTrial trial, int withoutMultiplesOf) throws IOException {
        List<String> args = new ArrayList<>(List.of("runout", option));
        for (int k = 0; k < trial.runs().size(); k++) {
            Path run = folder.resolve(option + trial.seed() + "-" + k + ".csv");
            TraceCsvWriter.write(run, trial.runs().get(k));
            args.add(run.toString());
        }
        out.getBuffer().setLength(0);
        assertEquals(ExitStatus.DONE, execute(args.toArray(String[]::new)), err.toString());
        String which = option + ", seed " + trial.seed();
        double[] part = told("form of the part alone");
        assertEquals(range_mm(trial.part(), withoutMultiplesOf), part[0], 2 * part[1], which);
        if (option.equals("--reversal")) {
            double[] spindle = told("error motion of the spindle alone");
            assertEquals(range_mm(trial.spindle(), withoutMultiplesOf), spindle[0], 2 * spindle[1], which);
        }
    }

    /** Simulated truth: within twice U95, which so few seeds seldom leave by chance. */
    @Test
    void partAndSpindleAreToldApartAsTheyAre() throws IOException {
        for (long seed = 40; seed < 46; seed++) {
            separated("--reversal", SeparationTrials.reversal(seed), 1000);
            separated("--steps", SeparationTrials.multiStep(5, seed), 5);
        }
        assertTrue(out.toString().contains("multiples of 5"), out.toString());
    }

    @Test
    void aFaceHasWordsOfItsOwn() throws IOException {
        String run = turned(4, true).toString();
        assertEquals(ExitStatus.DONE, execute("runout", "--surface", "face", run), err.toString());
        for (String word : List.of("axial runout", "wobble", "wave of the face")) {
            assertTrue(out.toString().contains(word), out.toString());
        }
        assertTrue(!out.toString().contains("roundness"), out.toString());
        assertEquals(ExitStatus.WRONG_USE, execute("runout", "--surface", "side", run));
    }

    /** Four parts that differ in form. */
    private void parts(String... names) throws IOException {
        for (int k = 0; k < names.length; k++) {
            Files.copy(turned(3 + 0.3 * k, true), folder.resolve(names[k]));
        }
        Files.delete(folder.resolve("turned.csv"));
    }

    /** Law: a least and a most allowed give Cp as well; Cpk is no greater. */
    @Test
    void aLeastAndAMostGiveCpToo() throws IOException {
        parts("a.csv", "b.csv", "c.csv", "d.csv");
        assertEquals(
                ExitStatus.DONE, execute("runout", "--fim-limit", "0.002,0.006", folder.toString()), err.toString());
        Matcher index = Pattern.compile("Cpk? ([0-9.]+), between").matcher(out.toString());
        assertTrue(index.find(), out.toString());
        double cp = Double.parseDouble(index.group(1));
        assertTrue(index.find(), out.toString());
        assertTrue(Double.parseDouble(index.group(1)) <= cp, out.toString());
        assertEquals(ExitStatus.WRONG_USE, execute("runout", "--fim-limit", "0.006,0.002", folder.toString()));
    }

    /** Law (JCGM 100:2008, 4.3.7): the indicator's error stands in U95 and in the budget, and changes the decision. */
    @Test
    void theIndicatorsErrorCountsInTheDecision() throws IOException {
        String run = turned(4, true).toString();
        assertEquals(ExitStatus.DONE, execute("runout", "--json", "--fim-limit", "0.0045", run), err.toString());
        JsonNode without = new ObjectMapper().readTree(out.toString());
        assertTrue(without.get("decision").asText().startsWith("conforms"), out.toString());
        out.getBuffer().setLength(0);
        execute("runout", "--json", "--fim-limit", "0.0045", "--permissible-error", "0.0005", run);
        JsonNode with = new ObjectMapper().readTree(out.toString());
        assertTrue(with.get("decision").asText().startsWith("cannot be told"), out.toString());
        assertEquals(1.96 * Math.sqrt(2.0 / 3) * 0.0005, with.get("fimU95").asDouble(), 3e-5);
        assertEquals(2, with.get("fimBudget").size());
        out.getBuffer().setLength(0);
        assertEquals(ExitStatus.DONE, execute("runout", "--plan", "joinery-head", run), err.toString());
        assertTrue(out.toString().contains("indicator's hysteresis"), out.toString());
    }

    /** A cell that begins with what a spreadsheet takes for a formula does not, wherever it comes from. */
    @Test
    void noRowOfTheTableHoldsAFormula() throws IOException {
        parts("=1+2.csv", "+cmd.csv", "-2.csv", "@sum.csv", "\ttab.csv", "\rreturn.csv");
        for (String file : List.of("=1+2.csv", "+cmd.csv", "-2.csv", "@sum.csv", "\ttab.csv", "\rreturn.csv")) {
            assertTrue("=+-@\t\r".indexOf(RunoutCsv.text(file).charAt(1)) < 0, RunoutCsv.text(file));
        }
        assertEquals(ExitStatus.DONE, execute("runout", "--csv", folder.toString()), err.toString());
        for (String row : out.toString().lines().toList()) {
            for (String cell : row.split(",(?=([^\"]*\"[^\"]*\")*[^\"]*$)")) {
                String bare = cell.replaceAll("^\"|\"$", "");
                boolean number = bare.matches("-?[0-9.]+");
                assertTrue(bare.isEmpty() || number || "=+-@\t\r".indexOf(bare.charAt(0)) < 0, cell);
            }
        }
    }

    /** Law: a length without its unit is none; a folder may hold traces in millimetres and in inches. */
    @Test
    void everyLengthOfTheTableHasItsOwnUnit() throws IOException {
        Path inches = turned(3, true);
        Path millimetres = Files.writeString(
                folder.resolve("mm.csv"), Files.readString(inches).replace("reading_in", "reading_mm"));
        assertEquals(ExitStatus.DONE, run("runout", inches, millimetres), err.toString());
        List<String> rows = out.toString().lines().toList();
        assertTrue(rows.get(1).matches("turned.csv +3( +[0-9.]+ \u00b1 [0-9.]+ in){3}"), rows.get(1));
        assertTrue(rows.get(2).matches("mm.csv +3( +[0-9.]+ \u00b1 [0-9.]+ mm){3}"), rows.get(2));
    }

    @Test
    void aLimitNeedsOneUnit() throws IOException {
        Path mm = Files.writeString(
                folder.resolve("mm.csv"), Files.readString(turned(4, true)).replace("reading_in", "reading_mm"));
        assertEquals(
                ExitStatus.WRONG_USE,
                execute(
                        "runout",
                        "--fim-limit",
                        "1",
                        mm.toString(),
                        folder.resolve("turned.csv").toString()));
        assertTrue(err.toString().contains("unit"), err.toString());
    }
}

package sweepbook.cli.command;

import java.io.PrintWriter;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.Stream;
import picocli.CommandLine;
import picocli.CommandLine.Option;
import sweepbook.cli.plan.Cautions;

/** A link in place of a file: what it sends is recorded first, by the trace command, and then read like any file. */
final class RunoutLink {
    @Option(names = "--profile", paramLabel = "PROFILE", description = "For a link: what its bytes mean.")
    private String profile;

    @Option(names = "--out", paramLabel = "FILE.csv", description = "For a link: the trace file that is recorded.")
    private Path recorded;

    @Option(names = "--seconds", paramLabel = "S", description = "For a link: end after so many seconds.")
    private String seconds;

    @Option(names = "--mark-key", description = "For a link: Enter marks that the witness mark passes.")
    private boolean markKey;

    @Option(
            names = "--typed-angles",
            description = "For a link: the part stands at each angle that is typed, in degrees; an empty line ends.")
    private boolean typedAngles;

    static boolean isLink(String source) {
        return Stream.of("serial:", "tcp:", "replay:", "console:").anyMatch(source::startsWith);
    }

    Path recorded() {
        return recorded;
    }

    /** Records the link; the summary of that is no result, hence all goes to the other stream. */
    int record(List<String> sources, PrintWriter err) throws UserFault {
        if (sources.size() > 1 || recorded == null) {
            throw UserFault.wrongUse(sources.get(0) + ": one link at a time, and --out FILE.csv for what it sends");
        }
        List<String> words = new ArrayList<>(List.of("trace", sources.get(0), "--out", recorded.toString()));
        if (profile != null) {
            words.addAll(List.of("--profile", profile));
        }
        if (seconds != null) {
            words.addAll(List.of("--seconds", seconds));
        }
        if (markKey) {
            words.add("--mark-key");
        }
        if (typedAngles) {
            words.add("--typed-angles");
        }
        if (!sources.get(0).startsWith("replay:")) {
            Cautions.BEFORE_TURNING.forEach(caution -> err.println("! " + caution));
        }
        CommandLine program = Sweepbook.commandLine();
        program.setOut(err);
        program.setErr(err);
        return program.execute(words.toArray(String[]::new));
    }
}

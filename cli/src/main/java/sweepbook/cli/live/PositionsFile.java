package sweepbook.cli.live;

import java.io.IOException;
import java.io.PrintWriter;
import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import sweepbook.cli.plan.TextFile;

/**
 * A person whose answers stand in a file, one a line, in the order in which positions are asked for; empty lines and
 * lines that begin with # are passed over. A file cannot be asked again: what is doubted ends the job.
 */
public final class PositionsFile implements Person {
    private final Path file;
    private final List<String> lines;
    private final PrintWriter told;
    private int next;

    /** Passes over the first lines, as many as a book that is gone on with has taken already. */
    public PositionsFile(Path file, int taken, PrintWriter told) throws IOException {
        this.lines = TextFile.read(file, "a file with a position on each line")
                .lines()
                .toList();
        this.file = file;
        this.told = told;
        for (int i = 0; i < taken; i++) {
            nextLine();
        }
    }

    @Override
    public void tell(String line) {
        told.println(line);
        told.flush();
    }

    @Override
    public void show(LiveView view) {}

    @Override
    public Optional<String> typed(Question question) throws IOException {
        return switch (question) {
            case READY -> Optional.of("");
            case SWEEPING -> Optional.empty();
            case POSITION_ON_CREST, POSITION_ON_TRAVEL, POSITION_AT_THE_END -> Optional.of(nextLine());
        };
    }

    private String nextLine() throws IOException {
        while (next < lines.size()) {
            String line = lines.get(next++).strip();
            if (!line.isEmpty() && !line.startsWith("#")) {
                return line;
            }
        }
        throw new IOException(
                file + ": a position is asked for after its last line, " + lines.size() + "; add the missing one");
    }

    @Override
    public void objection(String why) throws IOException {
        throw new IOException(file + ", line " + next + ": " + why);
    }

    @Override
    public void close() {}
}

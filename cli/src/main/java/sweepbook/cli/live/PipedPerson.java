package sweepbook.cli.live;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStream;
import java.io.InputStreamReader;
import java.io.PrintWriter;
import java.nio.charset.StandardCharsets;
import java.util.Optional;
import java.util.concurrent.BlockingQueue;
import java.util.concurrent.LinkedBlockingQueue;

/**
 * A person, or a program, whose lines come through standard input that is no terminal. What is going on is told when it
 * changes; the end of the input leaves the job.
 */
public final class PipedPerson implements Person {
    private static final String LEAVE = "quit";

    private final PrintWriter told;
    private final BlockingQueue<String> lines = new LinkedBlockingQueue<>();
    private String lastState = "";

    public PipedPerson(InputStream in, PrintWriter told) {
        this.told = told;
        Thread typing = new Thread(() -> pump(in), "typing");
        typing.setDaemon(true);
        typing.start();
    }

    private void pump(InputStream in) {
        BufferedReader reader = new BufferedReader(new InputStreamReader(in, StandardCharsets.UTF_8));
        try {
            for (String line = reader.readLine(); line != null; line = reader.readLine()) {
                lines.add(line);
            }
        } catch (IOException e) {
            // No more lines can come; that is what the end of the input means too.
        }
        lines.add(LEAVE);
    }

    @Override
    public void tell(String line) {
        told.println(line);
        told.flush();
    }

    @Override
    public void show(LiveView view) {
        if (!view.state().equals(lastState)) {
            lastState = view.state();
            tell("  " + view.reading() + "  " + view.state());
        }
    }

    /** A program may send its lines ahead: a position waits until it is asked for, a word does not. */
    @Override
    public Optional<String> typed(Question question) {
        String next = lines.peek();
        if (next == null || question == Question.SWEEPING && !(Answer.of(next) instanceof Answer.Word)) {
            return Optional.empty();
        }
        return Optional.ofNullable(lines.poll());
    }

    @Override
    public void objection(String why) {
        tell("  ? " + why);
    }

    @Override
    public void close() {}
}

package sweepbook.cli.live;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStream;
import java.io.InputStreamReader;
import java.nio.charset.StandardCharsets;
import java.util.Optional;
import java.util.concurrent.BlockingQueue;
import java.util.concurrent.LinkedBlockingQueue;
import sweepbook.acquisition.time.Clock;

/** Lines as they are typed, each with its instant; a thread of its own waits for them. */
public final class TypedLines {
    /**
     * @param at_s when Enter was pressed, on the monotonic clock
     * @param isEnd whether no line will come any more; its text is empty then
     */
    public record Line(String text, double at_s, boolean isEnd) {}

    private final BlockingQueue<Line> lines = new LinkedBlockingQueue<>();

    public TypedLines(InputStream in, Clock clock) {
        Thread typing = new Thread(() -> pump(in, clock), "typing");
        typing.setDaemon(true);
        typing.start();
    }

    private void pump(InputStream in, Clock clock) {
        BufferedReader reader = new BufferedReader(new InputStreamReader(in, StandardCharsets.UTF_8));
        try {
            for (String line = reader.readLine(); line != null; line = reader.readLine()) {
                lines.add(new Line(line.strip(), clock.monotonic_s(), false));
            }
        } catch (IOException e) {
            // No more lines can come; that is what the end of the input means too.
        }
        lines.add(new Line("", clock.monotonic_s(), true));
    }

    /** The next line that was typed already, if there is one. */
    public Optional<Line> next() {
        return Optional.ofNullable(lines.poll());
    }
}

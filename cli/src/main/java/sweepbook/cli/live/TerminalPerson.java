package sweepbook.cli.live;

import java.io.IOException;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.BlockingQueue;
import java.util.concurrent.LinkedBlockingQueue;
import org.jline.reader.EndOfFileException;
import org.jline.reader.LineReader;
import org.jline.reader.LineReaderBuilder;
import org.jline.reader.UserInterruptException;
import org.jline.terminal.Terminal;
import org.jline.utils.AttributedString;
import org.jline.utils.AttributedStyle;
import org.jline.utils.Status;

/**
 * A person at a terminal: the live reading stands in large figures at the foot of the screen while a line is typed above
 * it. A thread of its own waits for lines; everything else is called by the thread that measures.
 */
public final class TerminalPerson implements Person {
    private static final String LEAVE = "quit";

    private final Terminal terminal;
    private final LineReader reader;
    private final Status status;
    private final BlockingQueue<String> lines = new LinkedBlockingQueue<>();
    private final Thread typing;

    public TerminalPerson(Terminal terminal) {
        this.terminal = terminal;
        this.reader = LineReaderBuilder.builder().terminal(terminal).build();
        this.status = Status.getStatus(terminal);
        this.typing = new Thread(this::type, "typing");
        typing.setDaemon(true);
        typing.start();
    }

    private void type() {
        while (true) {
            try {
                lines.add(reader.readLine("> "));
            } catch (UserInterruptException | EndOfFileException e) {
                lines.add(LEAVE);
                return;
            }
        }
    }

    @Override
    public void tell(String line) {
        Wrapping.wrap(line, terminal.getWidth()).forEach(reader::printAbove);
    }

    @Override
    public void show(LiveView view) {
        if (status == null) {
            return;
        }
        List<AttributedString> rows = new ArrayList<>();
        for (String row : BigFigure.of(view.reading())) {
            rows.add(new AttributedString("  " + row, AttributedStyle.BOLD));
        }
        rows.add(new AttributedString("  " + view.state(), AttributedStyle.BOLD));
        rows.add(new AttributedString("  " + view.found()));
        rows.add(new AttributedString("  " + view.health(), AttributedStyle.DEFAULT.faint()));
        status.update(rows);
    }

    @Override
    public Optional<String> typed(Question question) {
        return Optional.ofNullable(lines.poll());
    }

    @Override
    public void objection(String why) {
        tell("  ? " + why);
    }

    @Override
    public void close() {
        if (status != null) {
            status.update(List.of());
        }
        typing.interrupt();
        try {
            terminal.close();
        } catch (IOException e) {
            // The screen is left as it is; everything that matters is in the book.
        }
    }
}

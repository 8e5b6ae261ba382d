package sweepbook.cli.live;

import java.io.IOException;
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
import org.jline.utils.InfoCmp.Capability;
import org.jline.utils.Status;

/**
 * A person at a terminal: reading and cue stand in large letters at the foot of the screen while a line is typed above
 * it. A thread of its own waits for lines; everything else is called by the thread that measures.
 */
public final class TerminalPerson implements Person {
    private static final String LEAVE = "quit";
    private static final String DRAW_FOOT = "draw-foot";

    private final Terminal terminal;
    private final LineReader reader;
    private final Status status;
    private final BlockingQueue<String> lines = new LinkedBlockingQueue<>();
    private final Thread typing;
    private List<AttributedString> foot = List.of();
    private Cue lastCue = Cue.of("");
    private boolean rings;

    public TerminalPerson(Terminal terminal) {
        this.terminal = terminal;
        this.reader = LineReaderBuilder.builder().terminal(terminal).build();
        this.status = Status.getStatus(terminal);
        reader.getWidgets().put(DRAW_FOOT, this::drawFoot);
        this.typing = new Thread(this::type, "typing");
        typing.setDaemon(true);
        typing.start();
    }

    private void type() {
        String line = "";
        while (Answer.of(line) != Answer.Word.QUIT) {
            try {
                line = reader.readLine("> ");
            } catch (UserInterruptException | EndOfFileException e) {
                line = LEAVE;
            }
            lines.add(line);
        }
    }

    @Override
    public void tell(String line) {
        Wrapping.wrap(line, terminal.getWidth()).forEach(reader::printAbove);
    }

    @Override
    public void show(LiveView view) {
        rings |= view.cue().calls() && !view.cue().equals(lastCue);
        lastCue = view.cue();
        foot = Foot.of(view, terminal.getWidth(), terminal.getHeight());
        try {
            // As a widget it waits for the line that is typed, which another thread draws with the same cursor.
            reader.callWidget(DRAW_FOOT);
        } catch (IllegalStateException e) {
            // Between two typed lines nothing is drawn; the next view comes soon.
        }
    }

    private boolean drawFoot() {
        if (rings) {
            terminal.puts(Capability.bell);
            terminal.flush();
            rings = false;
        }
        if (status != null) {
            status.update(foot);
        }
        return true;
    }

    @Override
    public Optional<String> typed(Question question) {
        return Optional.ofNullable(lines.poll());
    }

    @Override
    public void objection(String why) {
        tell("  ? " + why);
    }

    /** A line that nobody types any more is taken off the screen. */
    @Override
    public void close() {
        foot = List.of();
        try {
            reader.callWidget(LineReader.KILL_WHOLE_LINE);
            reader.callWidget(DRAW_FOOT);
            terminal.puts(Capability.carriage_return);
            terminal.puts(Capability.clr_eol);
        } catch (IllegalStateException e) {
            // Nobody types any more.
            drawFoot();
        }
        typing.interrupt();
        try {
            terminal.close();
        } catch (IOException e) {
            // The screen is left as it is; everything that matters is in the book.
        }
    }
}

package sweepbook.cli.live;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.ByteArrayOutputStream;
import java.io.PipedInputStream;
import java.io.PipedOutputStream;
import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.Optional;
import java.util.regex.MatchResult;
import java.util.regex.Pattern;
import org.jline.terminal.Size;
import org.jline.terminal.Terminal;
import org.jline.terminal.impl.ExternalTerminal;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import sweepbook.cli.live.Person.Question;

/** Keys go in through a pipe; what comes out is what a terminal would draw. */
@Timeout(60)
class TerminalPersonTest {
    private static final int WIDTH = 80;
    private static final int HEIGHT = 24;
    private static final char BELL = 7;

    /** From where the cursor's place is saved to where it is taken up again. */
    private static final Pattern AWAY = Pattern.compile("\u001b7(.*?)\u001b8", Pattern.DOTALL);

    private final ByteArrayOutputStream drawn = new ByteArrayOutputStream();
    private final PipedOutputStream keys = new PipedOutputStream();
    private TerminalPerson person;

    @BeforeEach
    void sitDown() throws Exception {
        Terminal terminal = new ExternalTerminal(
                "test", "xterm-256color", new PipedInputStream(keys), drawn, StandardCharsets.UTF_8);
        terminal.setSize(new Size(WIDTH, HEIGHT));
        person = new TerminalPerson(terminal);
    }

    @AfterEach
    void leave() {
        person.close();
    }

    /** Law: while the cursor is away at the foot, nothing is drawn of the line that another thread types. */
    @Test
    void typingWhileTheReadingChangesLeavesTheScreenInOrder() throws Exception {
        for (int line = 0; line < 300; line++) {
            for (int key = 0; key < 6; key++) {
                press(key < 5 ? "q" : "\r");
                person.show(view(String.format("%+.3f", (line * 6 + key) / 1000.0), Cue.of("SWEEP")));
            }
            assertEquals("qqqqq", nextLine());
            person.objection("too early");
        }
        List<String> atTheFoot =
                AWAY.matcher(drawn()).results().map(MatchResult::group).toList();
        assertTrue(atTheFoot.size() > 300, atTheFoot.size() + " times drawn");
        assertEquals(
                List.of(), atTheFoot.stream().filter(text -> text.contains("q")).toList());
    }

    /** Whoever stands at the machine is called once when something is to be typed, not at each reading. */
    @Test
    void theBellRingsWhenThePersonIsWantedAtTheScreen() {
        while (!drawn().contains("25 readings/s")) {
            person.show(view("+0.001", Cue.of("HOLD")));
        }
        assertEquals(0, bells());
        person.show(view("+0.001", Cue.calling("TYPE X")));
        person.show(view("+0.002", Cue.calling("TYPE X")));
        assertEquals(1, bells());
    }

    @Test
    void afterQuitNothingMoreIsAskedFor() throws Exception {
        press("quit\r");
        assertEquals("quit", nextLine());
        person.close();
        String drawn = drawn();
        assertFalse(drawn.substring(drawn.lastIndexOf("quit")).contains("> "), drawn);
    }

    private String nextLine() {
        Optional<String> typed = Optional.empty();
        while (typed.isEmpty()) {
            typed = person.typed(Question.SWEEPING);
            Thread.onSpinWait();
        }
        return typed.get();
    }

    private String drawn() {
        return drawn.toString(StandardCharsets.UTF_8);
    }

    private static LiveView view(String reading, Cue cue) {
        return new LiveView(reading, cue, "moving", 0, "0 passes", "25 readings/s");
    }

    private void press(String key) throws Exception {
        keys.write(key.getBytes(StandardCharsets.UTF_8));
        keys.flush();
    }

    private long bells() {
        return drawn().chars().filter(c -> c == BELL).count();
    }
}

package sweepbook.cli.command;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Locale;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class LearnCommandTest extends RunsCommands {
    @TempDir
    Path folder;

    private String recorded(String format) throws IOException {
        StringBuilder text = new StringBuilder();
        for (int i = 0; i < 50; i++) {
            text.append(String.format(Locale.ROOT, format, Math.sin(i / 4.0)));
        }
        return Files.writeString(folder.resolve("heard.bytes"), text).toString();
    }

    @Test
    void whatIsLearnedReadsTheSameIndicatorAfterwards() throws IOException {
        String heard = recorded("P %+08.3f mm\r\n");
        String profile = folder.resolve("learned.json").toString();
        String trace = folder.resolve("t.csv").toString();
        assertEquals(0, execute("learn", "replay:" + heard, "--out", profile), err.toString());
        assertEquals(
                10, err.toString().lines().filter(line -> line.startsWith("  ")).count(), err.toString());
        assertEquals(0, execute("trace", "replay:" + heard, "--profile", profile, "--out", trace), err.toString());
        assertTrue(out.toString().contains(": 50 readings"), out.toString());
        assertEquals(2, execute("learn", "replay:" + heard, "--out", profile));
        assertTrue(err.toString().contains("is there already"), err.toString());
    }

    @Test
    void whatFitsTwiceIsRefusedWithWhatToDo() throws IOException {
        String heard = recorded("%+.3f\r\n");
        assertEquals(1, execute("learn", "replay:" + heard));
        assertTrue(err.toString().contains("say --unit mm or --unit in"), err.toString());
        assertEquals("", out.toString());
        assertEquals(0, execute("learn", "replay:" + heard, "--unit", "in"), err.toString());
        assertTrue(out.toString().contains("\"resolution\" : 0.001"), out.toString());
        assertEquals(2, execute("learn", "replay:" + heard, "--unit", "furlong"));
    }
}

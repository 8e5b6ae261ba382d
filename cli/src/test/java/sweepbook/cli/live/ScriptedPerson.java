package sweepbook.cli.live;

import java.math.BigDecimal;
import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Deque;
import java.util.List;
import java.util.Optional;
import sweepbook.simulator.job.VirtualTouch;

/**
 * Types a script, a line whenever one is due. {@code touch NAME N} presses Enter and makes that touch; {@code crest} and
 * {@code end} type what the machine shows there, {@code end+0.1} something beside it, {@code end!} insists; a line that
 * begins with {@code during} is typed in mid-sweep, which breaks it off. {@code swivelled NAME 120} makes its first touch with C at
 * 120; {@code bump 0.05} leans on the stand
 * before the next line. When the script is over the person quits.
 */
final class ScriptedPerson implements Person {
    private final VirtualSource source;
    private final Deque<String> script = new ArrayDeque<>();
    private final List<String> objections = new ArrayList<>();
    private final List<String> told = new ArrayList<>();
    private final List<String> cues = new ArrayList<>();
    private VirtualTouch made;

    ScriptedPerson(VirtualSource source, String... lines) {
        this.source = source;
        script.addAll(List.of(lines));
    }

    List<String> objections() {
        return objections;
    }

    /** What stood on the screen in large letters, one after the other. */
    List<String> cues() {
        return cues;
    }

    List<String> told() {
        return told;
    }

    @Override
    public Optional<String> typed(Question question) {
        String next = script.isEmpty() ? "quit" : script.peek();
        boolean during = next.startsWith("during ");
        boolean now = next.startsWith("now ");
        if (question == Question.SWEEPING && !during && !now) {
            return Optional.empty();
        }
        script.poll();
        if (during) {
            source.stop();
        }
        return Optional.of(line(during || now ? next.substring(next.indexOf(' ') + 1) : next));
    }

    private String line(String scripted) {
        String[] words = scripted.split(" ");
        if (words[0].equals("touch")) {
            made = source.touch(words[1], Integer.parseInt(words[2]));
            return "";
        }
        if (words[0].equals("swivelled")) {
            made = source.touchSwivelled(words[1], Double.parseDouble(words[2]));
            return "";
        }
        if (words[0].equals("bump")) {
            source.bumpStand(Double.parseDouble(words[1]));
            return line(script.remove());
        }
        if (scripted.startsWith("crest")) {
            return beside(made.onCrest(), scripted.substring("crest".length()));
        }
        if (scripted.startsWith("end")) {
            return beside(made.atTheEnd(), scripted.substring("end".length()));
        }
        return scripted;
    }

    private static String beside(String shown, String rest) {
        String mark = rest.endsWith("!") ? "!" : "";
        String beside = rest.replace("!", "").replace("+", "");
        BigDecimal position = new BigDecimal(shown);
        return (beside.isEmpty() ? position : position.add(new BigDecimal(beside))).toPlainString() + mark;
    }

    @Override
    public void tell(String line) {
        told.add(line);
    }

    @Override
    public void show(LiveView view) {
        String word = view.cue().word();
        if (cues.isEmpty() || !cues.get(cues.size() - 1).equals(word)) {
            cues.add(word);
        }
    }

    @Override
    public void objection(String why) {
        objections.add(why);
    }

    @Override
    public void close() {}
}

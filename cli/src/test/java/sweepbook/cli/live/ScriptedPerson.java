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
 * begins with {@code during} is typed in mid-sweep, which breaks it off. {@code bump 0.05} leans on the stand
 * before the next line. When the script is over the person quits.
 */
final class ScriptedPerson implements Person {
    private final VirtualSource source;
    private final Deque<String> script = new ArrayDeque<>();
    private final List<String> objections = new ArrayList<>();
    private final List<String> told = new ArrayList<>();
    private VirtualTouch made;

    ScriptedPerson(VirtualSource source, String... lines) {
        this.source = source;
        script.addAll(List.of(lines));
    }

    List<String> objections() {
        return objections;
    }

    List<String> told() {
        return told;
    }

    @Override
    public Optional<String> typed(Question question) {
        String next = script.isEmpty() ? "quit" : script.peek();
        boolean during = next.startsWith("during ");
        if (question == Question.SWEEPING && !during) {
            return Optional.empty();
        }
        script.poll();
        if (during) {
            source.stop();
        }
        return Optional.of(line(during ? next.substring("during ".length()) : next));
    }

    private String line(String scripted) {
        String[] words = scripted.split(" ");
        if (words[0].equals("touch")) {
            made = source.touch(words[1], Integer.parseInt(words[2]));
            return "";
        }
        if (words[0].equals("bump")) {
            source.bumpStand(Double.parseDouble(words[1]));
            return line(script.remove());
        }
        if (scripted.equals("crest")) {
            return made.onCrest();
        }
        if (scripted.startsWith("end")) {
            String rest = scripted.substring("end".length());
            String mark = rest.endsWith("!") ? "!" : "";
            String beside = rest.replace("!", "").replace("+", "");
            BigDecimal shown = new BigDecimal(made.atTheEnd());
            return (beside.isEmpty() ? shown : shown.add(new BigDecimal(beside))).toPlainString() + mark;
        }
        return scripted;
    }

    @Override
    public void tell(String line) {
        told.add(line);
    }

    @Override
    public void show(LiveView view) {}

    @Override
    public void objection(String why) {
        objections.add(why);
    }

    @Override
    public void again(String why) {
        objections.add(why);
    }

    @Override
    public void close() {}
}

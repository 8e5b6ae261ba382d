package sweepbook.cli.plan;

import java.io.IOException;
import java.util.List;
import java.util.Optional;
import java.util.function.Function;

/** Asks a person until the answer is one. */
public final class Interview {
    /** Where the answers come from. */
    public interface Answers {
        /** What the person answers; empty where no answer will come any more. */
        Optional<String> to(String question) throws IOException;

        /** Something to know before the next answer, or why the last one is none. */
        void tell(String line);
    }

    /** No answer will come any more. */
    public static final class BrokenOff extends IOException {
        private static final long serialVersionUID = 1;

        BrokenOff(String question) {
            super("the answers ended at '" + question + "'; nothing was written, begin again");
        }
    }

    private final Answers answers;

    public Interview(Answers answers) {
        this.answers = answers;
    }

    void tell(String line) {
        answers.tell(line);
    }

    /** Something that cannot be left out. */
    String text(String question) throws IOException {
        return until(question, Optional.empty(), Function.identity());
    }

    /** One of some words; Enter takes the standard one. */
    String choice(String question, List<String> words, String standard) throws IOException {
        return until(question + " (" + String.join(", ", words) + ")", Optional.of(standard), answer -> {
            if (!words.contains(answer)) {
                throw new IllegalArgumentException("'" + answer + "' is not one of " + String.join(", ", words));
            }
            return answer;
        });
    }

    /** Enter takes the standard answer. */
    <T> T standard(String question, String standard, Function<String, T> reading) throws IOException {
        return until(question, Optional.of(standard), reading);
    }

    /** Must be answered. */
    <T> T needed(String question, Function<String, T> reading) throws IOException {
        return until(question, Optional.empty(), reading);
    }

    /** Enter leaves it out. */
    <T> Optional<T> optional(String question, Function<String, T> reading) throws IOException {
        return until(
                question + " (Enter: leave it out)",
                Optional.of(""),
                answer -> answer.isEmpty() ? Optional.empty() : Optional.of(reading.apply(answer)));
    }

    private <T> T until(String question, Optional<String> standard, Function<String, T> reading) throws IOException {
        String asked = question
                + standard.filter(word -> !word.isEmpty())
                        .map(word -> " [" + word + "]")
                        .orElse("");
        while (true) {
            String answer =
                    answers.to(asked).orElseThrow(() -> new BrokenOff(asked)).strip();
            if (answer.isEmpty() && standard.isEmpty()) {
                answers.tell("  ? this cannot be left out");
                continue;
            }
            try {
                return reading.apply(answer.isEmpty() ? standard.get() : answer);
            } catch (IllegalArgumentException e) {
                answers.tell("  ? " + e.getMessage());
            }
        }
    }
}

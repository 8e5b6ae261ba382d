package sweepbook.cli.live;

import java.util.Locale;

/** What a typed line means. */
sealed interface Answer {
    /** Enter alone. */
    record Enter() implements Answer {}

    enum Word implements Answer {
        /** The touch in hand once more, from its start. */
        REDO,
        /** The last kept touch does not count; it is made again. */
        UNDO,
        SKIP,
        QUIT,
        HELP
    }

    /** Anything else: a position. */
    record Text(String text) implements Answer {}

    static Answer of(String typed) {
        String line = typed.strip();
        if (line.isEmpty()) {
            return new Enter();
        }
        for (Word word : Word.values()) {
            if (word.name().toLowerCase(Locale.ROOT).equals(line.toLowerCase(Locale.ROOT))) {
                return word;
            }
        }
        return new Text(line);
    }
}

package sweepbook.cli.plan;

import java.util.Locale;

/** How a choice is written in plans and books: in lower case, with hyphens. */
public final class Word {
    private Word() {}

    public static String of(Enum<?> choice) {
        return choice.name().toLowerCase(Locale.ROOT).replace('_', '-');
    }
}

package sweepbook.acquisition.journal;

import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/** A point that a journal has reached: number and hash of a line. */
record Tip(long sequence, String hash) {
    private static final Pattern TEXT = Pattern.compile("(\\d{1,18}) ([0-9a-f]{64})\n");

    static Optional<Tip> parse(String text) {
        Matcher tip = TEXT.matcher(text);
        return tip.lookingAt() ? Optional.of(new Tip(Long.parseLong(tip.group(1)), tip.group(2))) : Optional.empty();
    }

    /** Never gets shorter as the journal grows, so that it can be written over in place. */
    String text() {
        return sequence + " " + hash + "\n";
    }
}

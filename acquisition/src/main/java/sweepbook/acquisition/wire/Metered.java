package sweepbook.acquisition.wire;

/** Text that counts how often a pattern looks at it, so that no pattern hangs the program. */
final class Metered implements CharSequence {
    /** A line that fits costs a few hundred steps; a pattern that needs this many is running wild. */
    private static final int MOST_STEPS = 200_000;

    private final CharSequence text;
    private int steps;

    Metered(CharSequence text) {
        this.text = text;
    }

    @Override
    public char charAt(int index) {
        if (++steps > MOST_STEPS) {
            throw new TooManySteps();
        }
        return text.charAt(index);
    }

    @Override
    public int length() {
        return text.length();
    }

    @Override
    public CharSequence subSequence(int start, int end) {
        return text.subSequence(start, end);
    }

    @Override
    public String toString() {
        return text.toString();
    }

    /** The pattern looked too often. */
    static final class TooManySteps extends RuntimeException {
        TooManySteps() {
            super(null, null, false, false);
        }
    }
}

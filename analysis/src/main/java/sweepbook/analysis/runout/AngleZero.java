package sweepbook.analysis.runout;

/** Where the angle counts from. */
public enum AngleZero {
    FIRST_MARK("first mark"),
    STATED("stated angles"),
    /** No marks: angles are told only against each other. */
    FIRST_READING("first reading");

    private final String words;

    AngleZero(String words) {
        this.words = words;
    }

    public String words() {
        return words;
    }
}

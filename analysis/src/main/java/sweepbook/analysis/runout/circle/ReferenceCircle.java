package sweepbook.analysis.runout.circle;

/** The circle about which roundness is told; names and letters as in ISO 12181-1. */
public enum ReferenceCircle {
    LEAST_SQUARES("LSCI", "least-squares circle"),
    MINIMUM_ZONE("MZCI", "minimum-zone circles"),
    MINIMUM_CIRCUMSCRIBED("MCCI", "minimum circumscribed circle"),
    MAXIMUM_INSCRIBED("MICI", "maximum inscribed circle");

    private final String letters;
    private final String words;

    ReferenceCircle(String letters, String words) {
        this.letters = letters;
        this.words = words;
    }

    public String letters() {
        return letters;
    }

    public String words() {
        return words;
    }
}

package sweepbook.acquisition.wire;

/** What an indicator says instead of a value, or beside it. */
public enum IndicatorStatus {
    OVER_RANGE("over-range"),
    LOW_BATTERY("low-battery"),
    ERROR("error");

    private final String word;

    IndicatorStatus(String word) {
        this.word = word;
    }

    /** The word used in profiles and on the screen. */
    public String word() {
        return word;
    }
}

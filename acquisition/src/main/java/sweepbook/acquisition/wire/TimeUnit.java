package sweepbook.acquisition.wire;

/** The unit of a device's own time stamps, which are whole numbers of it. */
enum TimeUnit {
    SECONDS("s", 1),
    MILLISECONDS("ms", 1_000),
    MICROSECONDS("us", 1_000_000);

    private final String symbol;
    private final long perSecond;

    TimeUnit(String symbol, long perSecond) {
        this.symbol = symbol;
        this.perSecond = perSecond;
    }

    String symbol() {
        return symbol;
    }

    double seconds(long count) {
        return (double) count / perSecond;
    }

    long count(double time_s) {
        return Math.round(time_s * perSecond);
    }
}

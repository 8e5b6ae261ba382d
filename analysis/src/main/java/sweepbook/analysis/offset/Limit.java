package sweepbook.analysis.offset;

/** A limit that is a number from 0 up, or NaN where nobody stated it. */
final class Limit {
    private Limit() {}

    static void check(String what, double limit, String unit) {
        if (limit < 0 || Double.isInfinite(limit)) {
            throw new IllegalArgumentException(what + " must be 0 " + unit + " or more, not " + limit);
        }
    }
}

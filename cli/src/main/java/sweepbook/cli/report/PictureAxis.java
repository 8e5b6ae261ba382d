package sweepbook.cli.report;

/**
 * One axis of a picture.
 *
 * @param label quantity and unit, as in {@code reading, mm}
 * @param from value at its start
 * @param to value at its end, above from
 */
record PictureAxis(String label, double from, double to, Ticks ticks) {
    private static final int TICKS = 6;

    PictureAxis {
        if (!(from < to) || !Double.isFinite(to - from)) {
            throw new IllegalArgumentException("the axis '" + label + "' cannot go from " + from + " to " + to);
        }
    }

    static PictureAxis of(String label, double from, double to) {
        return new PictureAxis(label, from, to, Ticks.between(from, to, TICKS));
    }

    static PictureAxis ofAngle(String label, double from_deg, double to_deg) {
        return new PictureAxis(label, from_deg, to_deg, Ticks.ofAngle(from_deg, to_deg, TICKS));
    }

    /** From the least to the greatest value with some room at both ends, and never narrower than told. */
    static PictureAxis around(String label, double least, double greatest, double narrowest) {
        double room = Math.max((greatest - least) * 0.08, (narrowest - (greatest - least)) / 2);
        return of(label, least - room, greatest + room);
    }

    /** Which share of the way from start to end a value lies at. */
    double share(double value) {
        return (value - from) / (to - from);
    }

    boolean holds(double value) {
        return value >= from && value <= to;
    }
}

package sweepbook.analysis.uncertainty;

/**
 * The limits a result must keep, in the result's unit; infinite where there is no limit on that side.
 */
public record Tolerance(double lower, double upper) {
    public Tolerance {
        if (!(lower < upper)) {
            throw new IllegalArgumentException(
                    "the lower limit must be below the upper one, not " + lower + " to " + upper);
        }
    }

    public static Tolerance atMost(double upper) {
        return new Tolerance(Double.NEGATIVE_INFINITY, upper);
    }

    public static Tolerance atLeast(double lower) {
        return new Tolerance(lower, Double.POSITIVE_INFINITY);
    }

    public static Tolerance around(double nominal, double plusMinus) {
        return new Tolerance(nominal - plusMinus, nominal + plusMinus);
    }

    public double width() {
        return upper - lower;
    }
}

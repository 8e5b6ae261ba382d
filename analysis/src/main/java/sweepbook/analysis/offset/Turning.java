package sweepbook.analysis.offset;

/** Which way a growing angle of the rotary axis turns the feature whose alignment is measured. */
public enum Turning {
    /** The plus direction of the travel axis is turned towards the plus direction of the measured axis. */
    TOWARDS_MEASURED(+1),
    AWAY_FROM_MEASURED(-1);

    private final int sign;

    Turning(int sign) {
        this.sign = sign;
    }

    public int sign() {
        return sign;
    }

    /**
     * For axes named as in ISO 841 and a feature that turns in the right-handed sense, as everything on a head does: A
     * turns Y towards Z, B turns Z towards X, C turns X towards Y. A workpiece on a rotary table turns the other way
     * (primed axes of the same standard).
     */
    public static Turning of(char travelAxis, char measuredAxis, char rotaryAxis) {
        String turned = String.valueOf(travelAxis) + measuredAxis;
        String towards =
                switch (rotaryAxis) {
                    case 'A' -> "YZ";
                    case 'B' -> "ZX";
                    case 'C' -> "XY";
                    default ->
                        throw new IllegalArgumentException("a rotary axis is called A, B or C, not " + rotaryAxis);
                };
        if (turned.equals(towards)) {
            return TOWARDS_MEASURED;
        }
        if (turned.contentEquals(new StringBuilder(towards).reverse())) {
            return AWAY_FROM_MEASURED;
        }
        throw new IllegalArgumentException(
                rotaryAxis + " does not turn " + travelAxis + " towards or away from " + measuredAxis);
    }
}

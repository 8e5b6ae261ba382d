package sweepbook.analysis.offset;

/** In which direction of the measured axis the shown position changes as the contact is pressed; a in the arithmetic. */
public enum Direction {
    PLUS(+1),
    MINUS(-1);

    private final int sign;

    Direction(int sign) {
        this.sign = sign;
    }

    public int sign() {
        return sign;
    }
}

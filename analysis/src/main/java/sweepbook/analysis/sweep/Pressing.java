package sweepbook.analysis.sweep;

/** What pressing the contact does to the reading; p in the arithmetic of the offsets. */
public enum Pressing {
    RAISES(+1),
    LOWERS(-1);

    private final int sign;

    Pressing(int sign) {
        this.sign = sign;
    }

    /** +1 if pressing raises the reading, -1 if it lowers it. */
    public int sign() {
        return sign;
    }
}

package sweepbook.analysis.offset;

/**
 * What moves against what when the shown position grows; g in the arithmetic. Only the motion of head against table
 * counts (ISO 841), not which of the two the machine drives.
 */
public enum Stand {
    /** The indicator stands on the table, the head carries the feature. */
    ON_TABLE(+1),
    /** The head carries the indicator, the feature stands on the table. */
    ON_MACHINE(-1);

    private final int sign;

    Stand(int sign) {
        this.sign = sign;
    }

    public int sign() {
        return sign;
    }
}

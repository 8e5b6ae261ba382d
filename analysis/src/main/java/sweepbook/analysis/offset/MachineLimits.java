package sweepbook.analysis.offset;

/**
 * What is known of the machine. NaN: not stated (the result then warns); 0: known to be nil.
 *
 * @param readoutStep_mm step of the position it shows
 * @param backlash_mm how far its axis may stand differently at one shown position
 */
public record MachineLimits(double readoutStep_mm, double backlash_mm) {
    public static final MachineLimits NOT_STATED = new MachineLimits(Double.NaN, Double.NaN);

    public MachineLimits {
        Limit.check("step of the machine's readout", readoutStep_mm, "mm");
        Limit.check("backlash", backlash_mm, "mm");
    }
}

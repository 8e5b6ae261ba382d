package sweepbook.analysis.sweep;

/**
 * The jog clicks between the dwell on the crest and the stable zero.
 *
 * @param count how many steps were seen, back and forth counted alike
 * @param net steps in the direction that presses less those that back off
 * @param step_mm size of one step, in millimetres, positive; NaN where there is none
 * @param travel_mm change of the reading from the crest dwell to the stable zero, signed, in millimetres
 */
public record JogClicks(int count, int net, double step_mm, double travel_mm) {
    public static final JogClicks NONE = new JogClicks(0, 0, Double.NaN, 0);
}

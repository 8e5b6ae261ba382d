package sweepbook.simulator.indicator;

/**
 * How an indicator reads.
 *
 * @param display unit and step
 * @param pressingSign +1 if pressing raises the reading, -1 if it lowers it
 * @param preload_mm press at which the reading is zero
 * @param noise_mm standard deviation of a single reading before rounding
 * @param hysteresis_mm what the reading lags behind when the plunger turns back
 * @param interval_s time from one reading to the next
 */
public record IndicatorSettings(
        Display display,
        int pressingSign,
        double preload_mm,
        double noise_mm,
        double hysteresis_mm,
        double interval_s) {
    /** The reading without noise and rounding at a press. */
    public double level_mm(double press_mm) {
        return pressingSign * (press_mm - preload_mm);
    }

    /** Variance of one reading: its noise, and the step of the display taken as an even spread over one step. */
    public double variance_mm2() {
        double step_mm = display.resolution_mm();
        return noise_mm * noise_mm + step_mm * step_mm / 12;
    }
}

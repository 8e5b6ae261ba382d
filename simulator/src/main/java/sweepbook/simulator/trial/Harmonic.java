package sweepbook.simulator.trial;

/**
 * One undulation of a part's form: amplitude * cos(upr * angle - phase).
 *
 * @param upr undulations per revolution
 */
public record Harmonic(int upr, double amplitude_mm, double phase_deg) {
    double at_mm(double angle_deg) {
        return amplitude_mm * Math.cos(Math.toRadians(upr * angle_deg - phase_deg));
    }
}

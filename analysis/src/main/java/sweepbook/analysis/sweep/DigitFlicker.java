package sweepbook.analysis.sweep;

import java.util.List;
import java.util.OptionalDouble;
import org.hipparchus.util.FastMath;

/**
 * The noise that a coarse display hides, from how often its last digit flickers where a slow sweep carries the reading over the
 * edge between two: without noise once, and with it the oftener the slower.
 */
final class DigitFlicker {
    /** In steps from one reading to the next: faster, few digits flicker whatever the noise. */
    private static final double SLOW = 0.25;
    /** So many edges tell it. */
    private static final double FEWEST_EDGES = 6;
    /** Above this part of a step the readings themselves show the noise. */
    private static final double HIDDEN = 0.45;
    /** Nearer than so many steps to the crest the reading may stay within one digit. */
    private static final double AT_CREST = 1;
    /** In steps: what jumps farther does not flicker. */
    private static final double JUMP = 3;

    private final CleanTrace trace;
    private int readings;
    private double changes;
    private double edges;

    private DigitFlicker(CleanTrace trace) {
        this.trace = trace;
    }

    /** Standard deviation without rounding, in millimetres; empty where the display does not hide it, or the sweep is too fast. */
    static OptionalDouble noise_mm(CleanTrace trace, List<PassFinder.Window> windows) {
        if (!(trace.resolution_mm() > 0)) {
            return OptionalDouble.empty();
        }
        DigitFlicker flicker = new DigitFlicker(trace);
        for (PassFinder.Window window : windows) {
            flicker.add(window.from(), window.top(), window.level_mm());
            flicker.add(window.top(), window.to(), window.level_mm());
        }
        return flicker.noise_mm();
    }

    /** One flank, from (inclusive) to (exclusive). */
    private void add(int from, int to, double level_mm) {
        double q = trace.resolution_mm();
        double[] y = trace.pressed_mm();
        int before = -1;
        double moved = 0;
        for (int i = from; i < to; i++) {
            if (trace.spike()[i] || trace.line_mm()[i] > level_mm - AT_CREST * q) {
                continue;
            }
            double move = before < 0 ? 0 : (y[i] - y[before]) / q;
            if (before >= 0 && Math.abs(move) < JUMP) {
                readings++;
                changes += Math.abs(move);
                moved += move;
            }
            before = i;
        }
        edges += Math.abs(moved);
    }

    private OptionalDouble noise_mm() {
        double speed = edges / readings;
        if (edges < FEWEST_EDGES || speed > SLOW) {
            return OptionalDouble.empty();
        }
        // The sum of 2 p (1 - p) over an edge, p the probability of the higher digit, is 2 / sqrt(pi) times noise over
        // speed where noise is the greater.
        double perEdge = changes / edges;
        double noise = FastMath.sqrt(Math.max(0, perEdge * perEdge - 1)) * speed * FastMath.sqrt(FastMath.PI) / 2;
        return noise > HIDDEN ? OptionalDouble.empty() : OptionalDouble.of(noise * trace.resolution_mm());
    }
}

package sweepbook.analysis.sweep;

import java.util.Arrays;
import java.util.List;

/**
 * The digit at the end where the display steps so coarsely that a creep looks like a jog: one digit after the other, each held as
 * long. A click is sharp, or noise blurs it for as long as the needle stands there; a creep blurs the changes and holds the digits between.
 */
final class LastDigit {
    /** In steps of the display: what lies no farther off is the digit before, and then the one before that. */
    private static final double BEFORE = 1.6;

    private static final double BEFORE_THAT = 3.5;
    /** A creep that goes on evenly would have left the last digit, held so many times longer than the one before. */
    private static final double LONGER = 1.5;
    /** As a part of how long a digit is held: longer a creep takes for no change. */
    private static final double BLURRED = 0.25;
    /** The same of the time looked at on either side of a change. */
    private static final double BESIDE = 0.45;

    private final CleanTrace trace;
    private final Still last;
    private final Still before;
    private final boolean isThird;
    private final double side;

    /** @param levels in time order, the last of them the one at the end */
    LastDigit(CleanTrace trace, List<Still> levels) {
        this.trace = trace;
        double q = trace.resolution_mm();
        int k = levels.size() - 1;
        last = levels.get(k);
        side = k == 0 ? 0 : Math.signum(levels.get(k - 1).level_mm() - last.level_mm());
        while (k > 0 && isOff(levels.get(k - 1), 0, BEFORE * q)) {
            k--;
        }
        before = levels.get(k);
        isThird = k > 0 && isOff(levels.get(k - 1), BEFORE * q, BEFORE_THAT * q);
    }

    private boolean isOff(Still level, double above_mm, double to_mm) {
        double off_mm = side * (level.level_mm() - last.level_mm());
        return off_mm > above_mm && off_mm <= to_mm;
    }

    /** Whether for all that is seen the level creeps from digit to digit. */
    boolean mayCreep() {
        double held_s = trace.time_s()[last.from()] - trace.time_s()[before.from()];
        if (!isThird || last.seconds(trace) >= LONGER * held_s) {
            return false;
        }
        double q = trace.resolution_mm();
        double digit_mm = digit_mm();
        double into_s = blurred_s(last.from(), digit_mm + side * 0.5 * q, held_s);
        double before_s = blurred_s(before.from(), digit_mm + side * 1.5 * q, held_s);
        return Math.max(into_s, before_s) > 0 && Math.min(into_s, before_s) < BLURRED * held_s;
    }

    private double digit_mm() {
        double[] readings = Arrays.copyOfRange(trace.pressed_mm(), last.from(), last.to());
        Arrays.sort(readings);
        return readings[readings.length / 2];
    }

    /** From the first reading beyond an edge between two digits to the last before it, about a change; negative where it is sharp. */
    private double blurred_s(int change, double edge_mm, double held_s) {
        double[] time_s = trace.time_s();
        double first_s = Double.POSITIVE_INFINITY;
        double last_s = Double.NEGATIVE_INFINITY;
        for (int i = 0; i < last.to(); i++) {
            if (Math.abs(time_s[i] - time_s[change]) < BESIDE * held_s && !trace.spike()[i]) {
                if (side * (trace.pressed_mm()[i] - edge_mm) > 0) {
                    last_s = time_s[i];
                } else {
                    first_s = Math.min(first_s, time_s[i]);
                }
            }
        }
        return last_s - first_s;
    }
}

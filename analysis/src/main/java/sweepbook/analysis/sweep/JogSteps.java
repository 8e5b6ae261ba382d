package sweepbook.analysis.sweep;

import java.util.List;

/**
 * The jog between the dwell on the crest and the stable zero, decoded as whole steps of one of the sizes machines jog
 * by.
 */
final class JogSteps {
    /** A hundredth of a millimetre and a thousandth of an inch (common practice), and ten times as much. */
    private static final double[] STEPS_mm = {0.254, 0.1, 0.0254, 0.01};

    private JogSteps() {}

    /** The steps from the crest dwell over the levels between to the last. */
    static JogClicks decode(double dwell_mm, List<Still> levels, double noise_mm, int sign) {
        if (levels.isEmpty()) {
            return JogClicks.NONE;
        }
        double travel = levels.get(levels.size() - 1).level_mm() - dwell_mm;
        double best = Double.NaN;
        for (double step : STEPS_mm) {
            if (fits(step, dwell_mm, levels, noise_mm)) {
                best = step;
                break;
            }
        }
        if (Double.isNaN(best)) {
            return unequal(dwell_mm, levels, noise_mm, sign, travel);
        }
        int count = 0;
        long before = 0;
        for (Still level : levels) {
            long k = Math.round((level.level_mm() - dwell_mm) / best);
            count += (int) Math.abs(k - before);
            before = k;
        }
        return count == 0 ? JogClicks.NONE : new JogClicks(count, (int) before, best, sign * travel);
    }

    private static boolean fits(double step, double dwell_mm, List<Still> levels, double noise_mm) {
        double squares = 0;
        double before = 0;
        boolean moves = false;
        for (Still level : levels) {
            double k = (level.level_mm() - dwell_mm) / step;
            double off = (k - Math.rint(k)) * step;
            squares += off * off;
            moves |= Math.rint(k) != before;
            before = Math.rint(k);
        }
        double allowed = Math.min(0.22 * step, Math.max(0.08 * step, 1.5 * noise_mm));
        return moves && Math.sqrt(squares / levels.size()) <= allowed;
    }

    /** Steps of no common size: as many as there are changes of level. */
    private static JogClicks unequal(double dwell_mm, List<Still> levels, double noise_mm, int sign, double travel) {
        int count = 0;
        int net = 0;
        double size = 0;
        double before = dwell_mm;
        for (Still level : levels) {
            double change = level.level_mm() - before;
            if (Math.abs(change) > 4 * noise_mm) {
                count++;
                net += change > 0 ? 1 : -1;
                size += Math.abs(change);
            }
            before = level.level_mm();
        }
        return count == 0 ? JogClicks.NONE : new JogClicks(count, net, size / count, sign * travel);
    }
}

package sweepbook.analysis.sweep;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import org.hipparchus.util.FastMath;

/**
 * Equal steps of the distance from the crest, offset + k step in the unit of the motion P, on which the levels of a pass in clicks
 * lie: told by its flanks, where steps show.
 */
record ClickLattice(double offset, double step, double bend) {
    /** Nearer to the crest than this part of the fall, levels are too close to be told apart. */
    private static final double FLANK = 0.08;

    private static final int FEWEST_LEVELS = 6;
    private static final double EQUAL_STEPS = 0.6;
    /** Steps are tried from so many times the usual one down to such a part of it, their frequencies by so small a part. */
    private static final double WIDEST = 1.4;

    private static final double NARROWEST = 0.4;
    private static final double FINENESS = 0.0025;
    /** More across a pass are not counted. */
    static final int MOST_CLICKS = 240;

    /** The lattice of the levels of a pass, or empty where they are not equal steps apart. */
    static Optional<ClickLattice> of(CleanTrace trace, PassFit inTime, double variance_mm2) {
        PassReadings readings = inTime.readings();
        double[] time_s = trace.time_s();
        List<Double> distances = new ArrayList<>();
        double[] steps = new double[readings.to() - readings.from()];
        int s = 0;
        for (Still level : Levels.of(trace, readings.from(), readings.to(), 0.5 * variance_mm2)) {
            double middle_s = (time_s[level.from()] + time_s[level.to() - 1]) / 2;
            double u = distance(inTime, inTime.bend(), middle_s, level.level_mm());
            if (!isOnFlank(inTime, level.level_mm()) || level.to() - level.from() < 2) {
                continue;
            }
            double before = distances.isEmpty() ? 0 : distances.get(distances.size() - 1);
            if (u * before > 0 && u > before) {
                steps[s++] = u - before;
            }
            distances.add(u);
        }
        if (distances.size() < FEWEST_LEVELS || s < FEWEST_LEVELS / 2) {
            return Optional.empty();
        }
        Arrays.sort(steps, 0, s);
        return lattice(distances.stream().mapToDouble(u -> u).toArray(), steps[s / 2], inTime.bend());
    }

    /** The lattice of a pass of which step and contact are those of another one. */
    static ClickLattice like(PassFit counted, PassFit inTime) {
        double step = ClickModes.click(counted);
        double bend = counted.bend();
        PassReadings readings = inTime.readings();
        double cos = 0;
        double sin = 0;
        for (int i = 0; i < readings.size(); i++) {
            if (isOnFlank(inTime, readings.pressed_mm[i])) {
                double u = distance(inTime, bend, readings.at_s(i), readings.pressed_mm[i]);
                // Far down the flank a reading tells the distance better.
                cos += u * u * FastMath.cos(2 * FastMath.PI * u / step);
                sin += u * u * FastMath.sin(2 * FastMath.PI * u / step);
            }
        }
        return new ClickLattice(FastMath.atan2(sin, cos) / (2 * FastMath.PI) * step, step, bend);
    }

    private static boolean isOnFlank(PassFit fit, double level_mm) {
        return fit.crest_mm() - level_mm >= FLANK * fit.readings().fall_mm();
    }

    private static double distance(PassFit fit, double bend, double at_s, double level_mm) {
        double z = fit.crest_mm() - level_mm;
        return Math.signum(at_s - fit.crest_s()) * FastMath.sqrt(Math.max(0, z - bend * z * z));
    }

    /** The widest step, near the usual one, on whose multiples the distances lie, or empty where there is none. */
    private static Optional<ClickLattice> lattice(double[] u, double usual, double bend) {
        // Of a step the distances are phases; from one frequency to the next each turns on by the same angle.
        double lowest = 1 / (WIDEST * usual);
        double apart = FINENESS * lowest;
        double across =
                Arrays.stream(u).max().orElse(0) - Arrays.stream(u).min().orElse(0);
        double highest = Math.min(1 / (NARROWEST * usual), MOST_CLICKS / across);
        double[] cos = new double[u.length];
        double[] sin = new double[u.length];
        double[] turnCos = new double[u.length];
        double[] turnSin = new double[u.length];
        for (int i = 0; i < u.length; i++) {
            cos[i] = Math.cos(2 * Math.PI * u[i] * lowest);
            sin[i] = Math.sin(2 * Math.PI * u[i] * lowest);
            turnCos[i] = Math.cos(2 * Math.PI * u[i] * apart);
            turnSin[i] = Math.sin(2 * Math.PI * u[i] * apart);
        }
        double best = 0;
        ClickLattice found = null;
        for (double frequency = lowest; frequency < highest; frequency += apart) {
            double c = 0;
            double d = 0;
            for (int i = 0; i < u.length; i++) {
                c += cos[i];
                d += sin[i];
                double turned = cos[i] * turnCos[i] - sin[i] * turnSin[i];
                sin[i] = sin[i] * turnCos[i] + cos[i] * turnSin[i];
                cos[i] = turned;
            }
            double concentration = Math.sqrt(c * c + d * d) / u.length;
            // Halves of the step fit as well: the widest that fits is the click, at the top of its peak.
            boolean samePeak = found != null && frequency - 1 / found.step < 0.5 / across;
            if (concentration > (samePeak ? 1 : 1.08) * best) {
                best = concentration;
                found = new ClickLattice(FastMath.atan2(d, c) / (2 * FastMath.PI * frequency), 1 / frequency, bend);
            }
        }
        return best > EQUAL_STEPS ? Optional.of(found) : Optional.empty();
    }
}

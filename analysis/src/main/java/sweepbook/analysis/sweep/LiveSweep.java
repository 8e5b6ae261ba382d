package sweepbook.analysis.sweep;

import java.util.OptionalDouble;

/** What can be told of a sweep while it grows, in constant time a reading and without keeping the readings. */
final class LiveSweep {
    private static final double REST_s = 0.4;
    private static final int REST_READINGS = 4;
    private static final double LONGEST_WAIT_s = 12;
    private static final double JOG_mm = 0.006;
    /** A rest so near the crest, as a share of the way from the flank, is one on the crest. */
    private static final double ON_CREST = 0.2;

    private final SweepSettings settings;
    private final double[] last = new double[5];
    private final double[] sorted = new double[5];
    private long readings;
    private double reading_mm;
    private double resolution_mm;
    private double noise_mm;

    // The motion between turns, of the median line.
    private double high_mm;
    private double low_mm;
    private int direction;
    private int tops;
    private int bottoms;
    private double topSum_mm;
    private double bottomSum_mm;

    // The stretch at rest that goes on.
    private double restFrom_s;
    private long rest;
    private double restMean_mm;
    private double restTime_s;
    private double sumTT;
    private double sumTY;
    private double sumYY;
    private int strays;
    private double flank_mm;
    private double dwell_mm = Double.NaN;
    private double level_mm = Double.NaN;
    private int clicks;
    private double now_s;
    private double first_mm;
    private boolean moved;

    LiveSweep(SweepSettings settings) {
        this.settings = settings;
        resolution_mm = settings.resolution_mm() > 0 ? settings.resolution_mm() : Double.POSITIVE_INFINITY;
    }

    void add(double time_s, double value_mm) {
        double before = reading_mm;
        reading_mm = value_mm;
        now_s = time_s;
        int slot = (int) (readings % 5);
        last[slot] = value_mm;
        readings++;
        if (readings == 1) {
            first_mm = value_mm;
            high_mm = value_mm;
            low_mm = value_mm;
            startRest(time_s, value_mm);
            return;
        }
        double step = Math.abs(value_mm - before);
        if (!(settings.resolution_mm() > 0) && step > 1e-7 && step < resolution_mm) {
            resolution_mm = step;
        }
        double line = median();
        moved |= Math.abs(line - first_mm) > leastMove_mm();
        turns(line);
        rest(time_s, value_mm, line);
    }

    private double step_mm() {
        return Double.isInfinite(resolution_mm) ? 0 : resolution_mm;
    }

    private double leastMove_mm() {
        return Math.max(2.5 * step_mm(), 5 * noise_mm);
    }

    private void turns(double line) {
        double move = Math.max(leastMove_mm(), 1e-6);
        if (line > high_mm) {
            high_mm = line;
        }
        if (line < low_mm) {
            low_mm = line;
        }
        if (direction >= 0 && high_mm - line >= move) {
            if (direction > 0) {
                tops++;
                topSum_mm += high_mm;
                turned(!lowers(), high_mm);
            }
            direction = -1;
            low_mm = line;
        } else if (direction <= 0 && line - low_mm >= move) {
            if (direction < 0) {
                bottoms++;
                bottomSum_mm += low_mm;
                turned(lowers(), low_mm);
            }
            direction = 1;
            high_mm = line;
        }
    }

    private void rest(double time_s, double value_mm, double line) {
        double band = Math.max(0.8 * step_mm(), 3 * noise_mm) + 1e-9;
        if (Math.abs(line - restMean_mm) > band) {
            if (++strays >= 3 || rest < 3) {

                startRest(time_s, line);
            }
            return;
        }
        strays = 0;
        if (Math.abs(value_mm - restMean_mm) > 4 * band) {
            return;
        }
        // Running means and centred sums.
        rest++;
        double dt = time_s - restTime_s;
        double dy = value_mm - restMean_mm;
        restTime_s += dt / rest;
        restMean_mm += dy / rest;
        sumTT += dt * (time_s - restTime_s);
        sumTY += dt * (value_mm - restMean_mm);
        sumYY += dy * (value_mm - restMean_mm);
        if (rest >= 8) {
            double spread = Math.sqrt(sumYY / (rest - 1));
            noise_mm += (spread - noise_mm) * 0.02;
        }
        if (resting()) {
            level();
        }
    }

    /** After one more crest nothing has been jogged yet, whatever stood still on the way. */
    private void turned(boolean onCrest, double turn_mm) {
        if (onCrest) {
            dwell_mm = Double.NaN;
            clicks = 0;
        } else {
            flank_mm = turn_mm;
        }
    }

    /** Steps count from the first rest on the crest; rests on a flank, where the hand turns, are no jog. */
    private void level() {
        if (passes() == 0) {
            return;
        }
        if (!Double.isNaN(dwell_mm)) {
            if (Math.abs(restMean_mm - level_mm) > JOG_mm) {
                clicks++;
                level_mm = restMean_mm;
            }
            return;
        }
        double crest_mm = highSpot().getAsDouble();
        double near_mm = Math.max(leastMove_mm(), ON_CREST * Math.abs(crest_mm - flank_mm));
        if (Math.abs(restMean_mm - crest_mm) <= near_mm) {
            dwell_mm = restMean_mm;
            level_mm = restMean_mm;
        }
    }

    private boolean resting() {
        return rest >= REST_READINGS && now_s - restFrom_s >= REST_s;
    }

    private void startRest(double time_s, double value_mm) {
        restFrom_s = time_s;
        rest = 1;
        strays = 0;
        restMean_mm = value_mm;
        restTime_s = time_s;
        sumTT = 0;
        sumTY = 0;
        sumYY = 0;
    }

    private boolean stable() {
        double seconds = now_s - restFrom_s;
        if (rest < 8 || seconds < 1) {
            return false;
        }
        double q = step_mm();
        double slope = sumTT > 0 ? sumTY / sumTT : 0;
        double variance = Math.max(sumYY / (rest - 1), q * q / 12);
        double u = Math.sqrt(variance / rest);
        double slopeU = Math.sqrt(variance / Math.max(sumTT, 1e-12));
        boolean creeps = (Math.abs(slope) + slopeU) * DwellLevel.CREEP_s > q;
        return !creeps && (u <= 0.1 * q || seconds > LONGEST_WAIT_s);
    }

    SweepNow now() {
        SweepNow.Phase phase;
        if (!moved) {
            phase = SweepNow.Phase.FREE;
        } else if (!resting()) {
            phase = SweepNow.Phase.MOVING;
        } else if (stable()) {
            phase = SweepNow.Phase.STABLE;
        } else {
            phase = clicks > 0 ? SweepNow.Phase.SETTLING : SweepNow.Phase.ON_CREST;
        }
        return new SweepNow(phase, readings, reading_mm, passes(), highSpot(), clicks);
    }

    private boolean lowers() {
        return settings.pressing().map(p -> p == Pressing.LOWERS).orElse(false);
    }

    private int passes() {
        return lowers() ? bottoms : tops;
    }

    private OptionalDouble highSpot() {
        if (passes() == 0) {
            return OptionalDouble.empty();
        }
        return OptionalDouble.of(lowers() ? bottomSum_mm / bottoms : topSum_mm / tops);
    }

    private double median() {
        int n = (int) Math.min(readings, 5);
        for (int i = 0; i < n; i++) {
            double v = last[i];
            int k = i;
            while (k > 0 && sorted[k - 1] > v) {
                sorted[k] = sorted[k - 1];
                k--;
            }
            sorted[k] = v;
        }
        return sorted[n / 2];
    }
}

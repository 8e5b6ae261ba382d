package sweepbook.analysis.sweep;

import java.util.OptionalDouble;

/**
 * What can be told of a sweep while it grows, in constant time a reading and without keeping the readings: whether it
 * stands still, exactly; passes, high spot and clicks, roughly. Used by one thread.
 */
final class LiveSweep {
    private static final double REST_S = 0.3;
    private static final int REST_READINGS = 4;

    /** A turn of the hand counts as a pass if its fall is not much shallower than those before. */
    private static final double SHARE_OF_A_PASS = 0.2;

    private final int sign;
    private final Stillness still;
    private final RunningMedian line = new RunningMedian();
    private long readings;
    private double reading_mm;

    // Between turns of the median line; heights grow with pressing.
    private double top_mm;
    private double bottom_mm;
    private boolean rising;
    private int passes;
    private double passDepth_mm;
    private double highSpot_mm;

    // Since the last pass.
    private double restLevel_mm = Double.NaN;
    private int clicks;

    LiveSweep(SweepSettings settings) {
        this.sign = settings.pressing().map(Pressing::sign).orElse(+1);
        this.still = new Stillness(settings.resolution_mm());
    }

    void add(double time_s, double value_mm) {
        reading_mm = value_mm;
        double height_mm = sign * line.add(value_mm);
        if (readings++ == 0) {
            top_mm = height_mm;
            bottom_mm = height_mm;
        }
        still.add(time_s, value_mm);
        turns(height_mm);
        if (isResting()) {
            rest();
        }
    }

    private void turns(double height_mm) {
        double move_mm = Math.max(2.5 * still.band_mm(), SHARE_OF_A_PASS * passDepth_mm);
        top_mm = Math.max(top_mm, height_mm);
        bottom_mm = Math.min(bottom_mm, height_mm);
        if (rising && top_mm - height_mm > move_mm) {
            passes++;
            highSpot_mm = top_mm;
            rising = false;
            bottom_mm = height_mm;
            restLevel_mm = Double.NaN;
            clicks = 0;
        } else if (!rising && height_mm - bottom_mm > move_mm) {
            if (passes > 0) {
                double depth_mm = Math.max(0, highSpot_mm - bottom_mm);
                passDepth_mm = passDepth_mm == 0 ? depth_mm : Math.min(passDepth_mm, depth_mm);
            }
            rising = true;
            top_mm = height_mm;
        }
    }

    /** The first rest on the crest, and every rest at another level after it: what lies between is the jog. */
    private void rest() {
        double level_mm = still.level_mm();
        if (passes == 0) {
            return;
        }
        if (Double.isNaN(restLevel_mm)) {
            double near_mm = Math.max(2 * still.band_mm(), SHARE_OF_A_PASS * passDepth_mm);
            if (Math.abs(sign * level_mm - highSpot_mm) <= near_mm) {
                restLevel_mm = level_mm;
            }
        } else if (Math.abs(level_mm - restLevel_mm) > still.band_mm()) {
            clicks++;
            restLevel_mm = level_mm;
        }
    }

    private boolean isResting() {
        return still.restReadings() >= REST_READINGS && still.rest_s() >= REST_S;
    }

    SweepNow now() {
        return new SweepNow(
                phase(),
                readings,
                reading_mm,
                passes,
                passes == 0 ? OptionalDouble.empty() : OptionalDouble.of(sign * highSpot_mm),
                clicks);
    }

    private SweepNow.Phase phase() {
        if (readings == 0) {
            return SweepNow.Phase.NO_READING;
        }
        if (!isResting()) {
            return SweepNow.Phase.MOVING;
        }
        if (!Double.isNaN(still.standsFrom_s())) {
            return SweepNow.Phase.STABLE;
        }
        return clicks > 0 ? SweepNow.Phase.SETTLING : SweepNow.Phase.ON_CREST;
    }
}

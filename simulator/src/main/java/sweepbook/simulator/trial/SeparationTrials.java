package sweepbook.simulator.trial;

import static sweepbook.simulator.trial.SweepTrials.between;
import static sweepbook.simulator.trial.SweepTrials.ratioBetween;

import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import java.util.function.DoubleUnaryOperator;
import java.util.stream.IntStream;
import sweepbook.acquisition.trace.LengthUnit;
import sweepbook.acquisition.trace.Reading;
import sweepbook.acquisition.trace.Trace;
import sweepbook.simulator.indicator.Display;

/** Makes runs that separate a part's form from the spindle's, each set from a seed. */
public final class SeparationTrials {
    private static final Display DISPLAY = new Display(LengthUnit.MM, 10_000);

    private final Random random;
    private final TurnedPart part;
    private final TurnedPart spindle;

    private SeparationTrials(long seed) {
        this.random = new Random(seed * 0x9E3779B97F4A7C15L);
        double few_mm = 5 * DISPLAY.resolution_mm();
        this.part = TurnedPart.of(few_mm, random);
        this.spindle = TurnedPart.of(few_mm, random);
    }

    /**
     * Two runs; before the second the part and the indicator are both turned by half a turn on the spindle, and the angle counts
     * from the part's mark in both. The spindle's error changes its sign.
     */
    public static SeparationTrial reversal(long seed) {
        SeparationTrials made = new SeparationTrials(seed);
        return made.trial(
                seed,
                List.of(
                        made.run(angle_deg -> made.part.form_mm(angle_deg) + made.spindle.form_mm(angle_deg)),
                        made.run(angle_deg -> made.part.form_mm(angle_deg) - made.spindle.form_mm(angle_deg))));
    }

    /**
     * As many runs as steps; before each the part is turned on by 360 degrees / steps in the direction of turning against the
     * spindle, from whose mark the angle counts. So the part's spots come by that much earlier.
     */
    public static SeparationTrial multiStep(int steps, long seed) {
        SeparationTrials made = new SeparationTrials(seed);
        return made.trial(
                seed,
                IntStream.range(0, steps)
                        .mapToObj(k -> made.run(angle_deg ->
                                made.part.form_mm(angle_deg + 360.0 * k / steps) + made.spindle.form_mm(angle_deg)))
                        .toList());
    }

    private SeparationTrial trial(long seed, List<Trace> runs) {
        return new SeparationTrial(seed, runs, part.form(), spindle.form());
    }

    private Trace run(DoubleUnaryOperator form) {
        double noise_mm = DISPLAY.resolution_mm() * between(0.3, 1.5, random);
        double turn_s = ratioBetween(4, 12, random);
        double interval_s = turn_s / ratioBetween(200, 500, random);
        double start_deg = -between(5, 300, random);
        double eccentricity_mm = between(0.001, 0.01, random);
        double highSpot_deg = between(0, 360, random);
        List<Reading> readings = new ArrayList<>();
        for (double time_s = 0; time_s < 4 * turn_s; time_s = readings.size() * interval_s) {
            double angle_deg = start_deg + 360 * time_s / turn_s;
            double level_mm = form.applyAsDouble(angle_deg)
                    + eccentricity_mm * Math.cos(Math.toRadians(angle_deg - highSpot_deg))
                    + noise_mm * random.nextGaussian();
            double half_deg = 180 * interval_s / turn_s;
            boolean mark = Math.floor((angle_deg - half_deg) / 360) != Math.floor((angle_deg + half_deg) / 360);
            readings.add(new Reading(time_s, DISPLAY.shown_mm(level_mm), mark));
        }
        Trace.Builder trace = new Trace.Builder(DISPLAY.unit(), DISPLAY.resolution_mm());
        readings.forEach(trace::add);
        return trace.build();
    }
}

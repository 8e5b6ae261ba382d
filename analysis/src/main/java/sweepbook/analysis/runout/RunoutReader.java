package sweepbook.analysis.runout;

import java.util.Arrays;
import java.util.Locale;
import sweepbook.acquisition.trace.Trace;
import sweepbook.analysis.offset.CalibrationTable;
import sweepbook.analysis.runout.angle.MarkedReading;
import sweepbook.analysis.runout.angle.TurnMarks;
import sweepbook.analysis.runout.angle.Turning;
import sweepbook.analysis.runout.fit.Anchors;
import sweepbook.analysis.runout.fit.DisplayStep;
import sweepbook.analysis.runout.fit.Readings;
import sweepbook.analysis.runout.fit.Refresh;
import sweepbook.analysis.runout.fit.Samples;
import sweepbook.analysis.runout.fit.Spikes;
import sweepbook.analysis.runout.fit.TurnPeriod;
import sweepbook.analysis.uncertainty.Estimate;
import sweepbook.analysis.uncertainty.Finding;

/** Reads the trace of a turned part; where it cannot say, it says why. */
public final class RunoutReader {
    private static final int LEAST_READINGS = 8;
    /** A turn of N readings ends one of them before it is full; half a one more is not known. */
    static final double CLOSING = 1.5;

    private final Trace trace;
    private final RunoutSettings settings;
    private final Samples samples;
    private final boolean[] keep;
    /** Readings for one new value of the display. */
    private final int refresh;

    /** @throws IllegalArgumentException if a reading lies outside the indicator's calibration */
    private RunoutReader(Trace trace, RunoutSettings settings) {
        this.trace = trace;
        this.settings = settings;
        double[] shown = trace.readings_mm();
        double step = Double.isNaN(settings.step_mm()) ? trace.resolution_mm() : settings.step_mm();
        step = Double.isNaN(step) ? DisplayStep.of_mm(shown) : step;
        refresh = trace.hasAngles() ? 1 : Refresh.readings(shown, step);
        double scale = settings.indicator().readingScale().value();
        Samples every = new Samples(trace.times_s(), shown, 0, scale * step);
        Samples fresh = refresh == 1 ? every : every.only(Refresh.fresh(shown, refresh));
        keep = Spikes.keep(fresh.reading_mm(), step);
        double[] reading = settings.calibration()
                .map(table -> calibrated(fresh.reading_mm(), table))
                .orElseGet(fresh::reading_mm);
        for (int i = 0; i < reading.length; i++) {
            reading[i] *= scale;
        }
        samples = new Samples(fresh.time_s(), reading, 0, scale * step);
    }

    /** Spikes stay as they are: they may lie beyond what was calibrated. */
    private double[] calibrated(double[] reading_mm, CalibrationTable table) {
        double[] corrected = reading_mm.clone();
        for (int i = 0; i < corrected.length; i++) {
            if (keep[i]) {
                corrected[i] = table.correct(Estimate.exact(corrected[i])).value();
            }
        }
        return corrected;
    }

    /** The figures of a trace, or why there are none. */
    public static Finding<Runout> read(Trace trace, RunoutSettings settings) {
        if (trace.size() < LEAST_READINGS) {
            return Finding.notDetermined("only " + trace.size() + " readings; turn the part a whole turn or more");
        }
        if (Arrays.stream(trace.readings_mm()).allMatch(r -> r == trace.reading_mm(0))) {
            return Finding.notDetermined("the reading never moves: the contact does not touch, the part does not turn,"
                    + " or its runout is below one step of the display");
        }
        RunoutReader reader;
        try {
            reader = new RunoutReader(trace, settings);
        } catch (IllegalArgumentException e) {
            return Finding.notDetermined(e.getMessage());
        }
        IndicatorShare share = new IndicatorShare(settings.indicator());
        Finding<Runout> found = reader.read().map(share::addTo);
        return reader.refresh == 1
                ? found
                : found.map(r -> r.warned("the display showed a new value only every " + reader.refresh
                        + " readings or so; repeats were left out, and angles may be late by one"));
    }

    private Finding<Runout> read() {
        if (trace.hasAngles()) {
            return StatedTurn.read(trace, samples, keep, settings);
        }
        Readings readings = new Readings(samples, keep);
        return trace.hasMarks()
                ? fromMarks(readings)
                : TurnPeriod.speed_rad_per_s(readings.kept())
                        .flatMap(speed ->
                                even(readings, speed, Anchors.start(samples.from_s()), AngleZero.FIRST_READING));
    }

    /**
     * What nobody says and no trace shows shifts all angles alike, by root mean square: a mark may be on the next reading,
     * half a reading late, or not; values of a slow display are a reading old or so, repeats between more; one that may be
     * slow shows values half as old as its changes are apart, or new ones.
     */
    private double lateStdU_s() {
        int last = trace.size() - 1;
        double reading_s = (trace.time_s(last) - trace.time_s(0)) / last;
        double next = settings.markedReading() == MarkedReading.NOT_SAID ? 0.5 / Math.sqrt(2) : 0;
        int apart = refresh > 1 ? 1 : Refresh.notExcluded(trace.readings_mm());
        double slow = refresh > 1 ? 1 : apart > 1 ? apart / 2.0 / Math.sqrt(2) : 0;
        return reading_s * Math.hypot(next, slow);
    }

    private Finding<Runout> even(Readings readings, double speed_rad_per_s, Anchors anchors, AngleZero zero) {
        return new MovedTurn(readings, settings, lateStdU_s()).even(speed_rad_per_s, anchors, zero);
    }

    private Finding<Runout> fromMarks(Readings readings) {
        return TurnMarks.of(trace, settings.marksPerTurn(), settings.markedReading())
                .flatMap(marks -> {
                    if (marks.count() == 1) {
                        return fromOneMark(readings, marks);
                    }
                    Turning turning = marks.turning();
                    double span = turning.angle_rad(samples.to_s()) - turning.angle_rad(samples.from_s());
                    double one = span / (samples.size() - 1);
                    if (span < 2 * Math.PI - CLOSING * one) {
                        return Finding.notDetermined(String.format(
                                Locale.ROOT,
                                "the marks show only %.2f of a turn; turn a whole turn or more"
                                        + " (with %d marks a turn; say --marks-per-turn if that is not so)",
                                span / (2 * Math.PI),
                                settings.marksPerTurn()));
                    }
                    return new MovedTurn(readings, settings, lateStdU_s()).marked(marks);
                });
    }

    /** One passing of one mark tells where the angle starts; how fast it goes on, the readings must tell. */
    private Finding<Runout> fromOneMark(Readings readings, TurnMarks marks) {
        Finding<Runout> found = TurnPeriod.speed_rad_per_s(readings.kept()).flatMap(speed -> {
            Turning line = Turning.even(marks.time_s()[0], samples.to_s(), speed);
            Anchors anchors = new Anchors(marks.time_s(), new double[] {0}, marks.stdU_rad(line));
            return marks.silence(line, samples.from_s(), samples.to_s(), 1)
                    .map(Finding::<Runout>notDetermined)
                    .orElseGet(() -> even(readings, speed, anchors, AngleZero.FIRST_MARK));
        });
        return found instanceof Finding.NotDetermined<Runout> not
                ? Finding.notDetermined(
                        "only one mark passed, which does not tell the speed, and without it " + not.reason())
                : found;
    }
}

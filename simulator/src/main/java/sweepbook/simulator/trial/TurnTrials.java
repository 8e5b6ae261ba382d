package sweepbook.simulator.trial;

import static sweepbook.simulator.trial.SweepTrials.between;
import static sweepbook.simulator.trial.SweepTrials.ratioBetween;

import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import sweepbook.acquisition.trace.LengthUnit;
import sweepbook.acquisition.trace.Reading;
import sweepbook.acquisition.trace.Trace;
import sweepbook.simulator.fault.Spikes;
import sweepbook.simulator.indicator.Display;
import sweepbook.simulator.indicator.IndicatorSettings;
import sweepbook.simulator.indicator.Sample;

/** Makes turned parts of a kind, each from a seed: the same seed gives the same bits. */
public final class TurnTrials {
    private static final Display[] DISPLAYS = {
        new Display(LengthUnit.MM, 2000),
        new Display(LengthUnit.MM, 1000),
        new Display(LengthUnit.MM, 500),
        new Display(LengthUnit.IN, 20000),
        new Display(LengthUnit.IN, 10000)
    };

    private final TurnKind kind;
    private final long seed;
    private final Random random;
    private final IndicatorSettings settings;
    private final TurnedPart part;
    private final int marksPerTurn;
    private final double turns;
    private final double turn_s;
    private final Turning turning;
    private final double drift_mm_per_s;

    private TurnTrials(TurnKind kind, long seed) {
        this.kind = kind;
        this.seed = seed;
        this.random = SweepTrials.random(kind, seed);
        Display display = DISPLAYS[random.nextInt(DISPLAYS.length)];
        double q_mm = display.resolution_mm();
        double noise_mm = q_mm * (kind == TurnKind.NOISE_2Q ? 2 : between(0.25, 0.9, random));
        this.part = TurnedPart.of(q_mm, random);
        this.marksPerTurn = marksPerTurn(kind);
        this.turns = kind == TurnKind.LESS_THAN_A_TURN ? between(0.4, 0.9, random) : between(2.3, 6, random);
        this.turn_s = ratioBetween(4, 20, random);
        double readingsPerTurn = ratioBetween(70, 400, random);
        this.settings = new IndicatorSettings(display, 1, 0.6, noise_mm, 0, turn_s / readingsPerTurn);
        this.turning = turning();
        double steps = kind == TurnKind.DRIFT ? between(-10, 10, random) : 0;
        this.drift_mm_per_s = steps * q_mm / (turns * turn_s);
    }

    public static TurnTrial of(TurnKind kind, long seed) {
        TurnTrials made = new TurnTrials(kind, seed);
        return kind == TurnKind.STATIONS ? made.atStations() : made.turned();
    }

    private static int marksPerTurn(TurnKind kind) {
        return switch (kind) {
            case BY_HAND_TWELVE_MARKS, STOP_IN_MID_TURN, TURNS_BACK, MISSED_MARK -> 12;
            case EVEN_NO_MARKS, STATIONS -> 0;
            default -> 1;
        };
    }

    private Turning turning() {
        // The recording begins some way before the first mark.
        double start_deg = -between(0.05, 0.95, random) * 360 / Math.max(1, marksPerTurn);
        if (marksPerTurn < 12) {
            return new Turning.Even(start_deg, 360 / turn_s);
        }
        Turning hand = Turning.ByHand.of(start_deg, 360 / turn_s, 0.5, random);
        double at_s = turn_s * between(0.3, 0.7, random) * turns;
        return switch (kind) {
            case STOP_IN_MID_TURN -> new Turning.Interrupted(hand, at_s, turn_s * between(0.2, 1, random), 0);
            case TURNS_BACK ->
                new Turning.Interrupted(hand, at_s, turn_s * between(0.1, 0.4, random), between(40, 120, random));
            default -> hand;
        };
    }

    private TurnTrial turned() {
        List<Sample> samples = new ArrayList<>();
        for (double time_s = 0; time_s < turns * turn_s; time_s = samples.size() * settings.interval_s()) {
            samples.add(sample(time_s, turning.angle_deg(time_s), mark(time_s)));
        }
        if (kind == TurnKind.MISSED_MARK) {
            samples = withoutOneMark(samples);
        }
        if (kind == TurnKind.SPIKES) {
            samples = new Spikes(0.05, settings.display(), between(1, 10, random)).on(samples, random);
        }
        Trace.Builder trace =
                new Trace.Builder(settings.display().unit(), settings.display().resolution_mm());
        EccentricityBound bound = new EccentricityBound(part.highSpot_deg(), settings.variance_mm2());
        RoundnessBound ofForm = new RoundnessBound(part, settings.variance_mm2(), turning.unknowns_deg(0).length);
        for (Sample sample : samples) {
            trace.add(sample.reading());
            if (sample.intact()) {
                double time_s = sample.taken_s();
                bound.reading(turning.angle_deg(time_s));
                ofForm.reading(time_s, turning.angle_deg(time_s), turning.unknowns_deg(time_s));
            }
            if (sample.reading().mark()) {
                double window_deg = turning.angle_deg(sample.taken_s() + settings.interval_s() / 2)
                        - turning.angle_deg(sample.taken_s() - settings.interval_s() / 2);
                ofForm.mark(window_deg * window_deg / 12, turning.unknowns_deg(sample.taken_s()));
            }
        }
        double turned_deg = turning.angle_deg(samples.get(samples.size() - 1).taken_s()) - turning.angle_deg(0);
        return trial(trace.build(), turned_deg / 360, bound, ofForm);
    }

    private TurnTrial atStations() {
        // So many that no undulation of the part passes for eccentricity: 9 a turn would at 8 stations.
        int stations = 12 + 4 * random.nextInt(5);
        int rounds = 1 + random.nextInt(2);
        int each = 5 + random.nextInt(16);
        Trace.Builder trace =
                new Trace.Builder(settings.display().unit(), settings.display().resolution_mm());
        EccentricityBound bound = new EccentricityBound(part.highSpot_deg(), settings.variance_mm2());
        RoundnessBound ofForm = new RoundnessBound(part, settings.variance_mm2(), 0);
        double time_s = 0;
        for (int station = 0; station < stations * rounds; station++) {
            double angle_deg = station % stations * 360.0 / stations;
            for (int i = 0; i < each; i++) {
                trace.addAtAngle(sample(time_s, angle_deg, false).reading(), angle_deg);
                bound.reading(angle_deg);
                ofForm.reading(time_s, angle_deg, new double[0]);
                time_s += settings.interval_s();
            }
            time_s += between(2, 5, random);
        }
        return trial(trace.build(), rounds, bound, ofForm);
    }

    private Sample sample(double time_s, double angle_deg, boolean mark) {
        double press_mm = settings.preload_mm() + part.standsOut_mm(angle_deg) + drift_mm_per_s * time_s;
        double noisy_mm = settings.level_mm(press_mm) + settings.noise_mm() * random.nextGaussian();
        return new Sample(time_s, new Reading(time_s, settings.display().shown_mm(noisy_mm), mark), true);
    }

    /** Whether this is the reading nearest to the passing of a mark. */
    private boolean mark(double time_s) {
        if (marksPerTurn == 0) {
            return false;
        }
        double half_s = settings.interval_s() / 2;
        // A mark that passed just before the recording began is not its first; one that passed just after is.
        double before = Math.floor(turning.angle_deg(Math.max(0, time_s - half_s)) * marksPerTurn / 360);
        double after = Math.floor(turning.angle_deg(time_s + half_s) * marksPerTurn / 360);
        return before != after;
    }

    private List<Sample> withoutOneMark(List<Sample> samples) {
        List<Integer> marked = new ArrayList<>();
        for (int i = 0; i < samples.size(); i++) {
            if (samples.get(i).reading().mark()) {
                marked.add(i);
            }
        }
        // Not one of the ends: nobody could know of those.
        int missed = marked.get(2 + random.nextInt(marked.size() - 4));
        Reading told = samples.get(missed).reading();
        List<Sample> others = new ArrayList<>(samples);
        others.set(
                missed, new Sample(samples.get(missed).taken_s(), new Reading(told.time_s(), told.reading_mm()), true));
        return others;
    }

    private TurnTrial trial(Trace trace, double turned, EccentricityBound bound, RoundnessBound ofForm) {
        boolean angled = marksPerTurn > 0 || kind == TurnKind.STATIONS;
        return new TurnTrial(
                kind,
                seed,
                trace,
                marksPerTurn,
                settings.noise_mm(),
                turned,
                part.fim_mm(),
                part.eccentricity_mm(),
                angled ? part.highSpot_deg() : Double.NaN,
                part.outOfRoundness_mm(),
                ofForm.stdU_mm(),
                part.form(),
                bound.stdU_mm(),
                markStdU_deg(trace));
    }

    private double markStdU_deg(Trace trace) {
        MarkBound bound = new MarkBound(trace.time_s(trace.size() - 1) / 2);
        double half_s = settings.interval_s() / 2;
        for (int i = 0; i < trace.size() && marksPerTurn > 0; i++) {
            double time_s = trace.time_s(i);
            bound.reading(time_s, part, turning.angle_deg(time_s), settings.variance_mm2());
            if (trace.mark(i)) {
                double step_deg = 360.0 / marksPerTurn;
                double mark_deg = step_deg * Math.rint(turning.angle_deg(time_s) / step_deg);
                bound.mark(
                        time_s,
                        turning.angle_deg(time_s - half_s) - mark_deg,
                        turning.angle_deg(time_s + half_s) - mark_deg);
            }
        }
        return bound.stdU_deg(!(turning instanceof Turning.Even));
    }
}

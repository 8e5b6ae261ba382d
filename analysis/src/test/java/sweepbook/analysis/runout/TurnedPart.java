package sweepbook.analysis.runout;

import java.util.Arrays;
import java.util.Random;
import sweepbook.acquisition.trace.LengthUnit;
import sweepbook.acquisition.trace.Reading;
import sweepbook.acquisition.trace.Trace;

/**
 * A turned part of known shape under an indicator of known faults, made apart from the simulator so that nothing is
 * tuned to one generator.
 */
final class TurnedPart {
    enum Kind {
        EVEN_ONE_MARK,
        HAND_TWELVE_MARKS,
        NO_MARKS,
        STATIONS,
        SPIKES,
        NOISE_2Q,
        DRIFT
    }

    /** What the person does wrong. */
    enum Fault {
        NONE,
        LESS_THAN_A_TURN,
        STOP,
        BACK,
        MISSED_MARK,
        LATE_MARK,
        SPEED_DOUBLED,
        WRONG_MARKS_TOLD,
        NOT_TURNING,
        TWO_READINGS_A_TURN
    }

    final long seed;
    final Kind kind;
    Fault fault = Fault.NONE;
    final Random random;
    double q_mm = 0.001;
    double sigma_mm;
    double[] cos = new double[16];
    double[] sin = new double[16];
    double turns;
    double perTurn;
    double rate_per_s;
    double spikeShare;
    double drift_mm;
    double unevenness;
    int marksPerTurn = 1;
    private int marksTold;
    boolean marked = true;
    double markAt_rad;
    /** Speed against time, relative, as waves: amplitude, cycles a turn, phase. */
    double[][] waves = {};

    TurnedPart(Kind kind, long seed) {
        this.kind = kind;
        this.seed = seed;
        random = new Random(seed * 7919 + kind.ordinal());
        q_mm = pick(0.0005, 0.001, 0.002, 0.00254, 0.01);
        sigma_mm = q_mm * between(0.1, 1);
        double e = q_mm * Math.exp(between(Math.log(4), Math.log(120)));
        set(1, e);
        for (int n = 2; n <= 7; n++) {
            if (random.nextDouble() < 0.5) {
                set(n, q_mm * between(0, n <= 3 ? 4 : 1.5));
            }
        }
        turns = between(2.2, 7);
        perTurn = between(90, 600);
        rate_per_s = between(10, 100);
        markAt_rad = between(0, 2 * Math.PI);
        switch (kind) {
            case EVEN_ONE_MARK -> {}
            case HAND_TWELVE_MARKS -> {
                marksPerTurn = 12;
                turns = between(1.3, 4);
                unevenness = between(0.1, 0.5);
                waves = new double[4][];
                for (int w = 0; w < 4; w++) {
                    waves[w] = new double[] {unevenness / 2, between(0.2, 3), between(0, 2 * Math.PI)};
                }
            }
            case NO_MARKS -> marked = false;
            case STATIONS -> {}
            case SPIKES -> spikeShare = between(0.005, 0.05);
            case NOISE_2Q -> sigma_mm = 2 * q_mm;
            case DRIFT -> drift_mm = q_mm * between(-20, 20);
        }
    }

    TurnedPart with(Fault mistake) {
        fault = mistake;
        if (mistake == Fault.LESS_THAN_A_TURN) {
            turns = between(0.3, 0.95);
        } else if (mistake == Fault.WRONG_MARKS_TOLD) {
            do {
                marksTold = 1 + random.nextInt(2 * marksPerTurn);
            } while (marksTold == marksPerTurn);
        } else if (mistake == Fault.NOT_TURNING) {
            Arrays.fill(cos, 0);
            Arrays.fill(sin, 0);
        } else if (mistake == Fault.TWO_READINGS_A_TURN) {
            perTurn = between(2.05, 3);
            turns = between(20, 60);
        }
        return this;
    }

    int marksTold() {
        return marksTold == 0 ? marksPerTurn : marksTold;
    }

    private double pick(double... values) {
        return values[random.nextInt(values.length)];
    }

    double between(double lo, double hi) {
        return lo + (hi - lo) * random.nextDouble();
    }

    void set(int n, double amplitude) {
        double phase = between(0, 2 * Math.PI);
        cos[n] = amplitude * Math.cos(phase);
        sin[n] = amplitude * Math.sin(phase);
    }

    double profile_mm(double angle_rad) {
        double sum = 0;
        for (int n = 1; n < cos.length; n++) {
            sum += cos[n] * Math.cos(n * angle_rad) + sin[n] * Math.sin(n * angle_rad);
        }
        return sum;
    }

    double eccentricity_mm() {
        return Math.hypot(cos[1], sin[1]);
    }

    /** Counted from the mark. */
    double highSpot_rad() {
        return Math.atan2(sin[1], cos[1]) - (kind == Kind.STATIONS ? 0 : markAt_rad);
    }

    double range_mm(int fromUpr) {
        double max = -1e9;
        double min = 1e9;
        for (int i = 0; i < 7200; i++) {
            double t = i * Math.PI / 3600;
            double f = profile_mm(t) - (fromUpr > 1 ? cos[1] * Math.cos(t) + sin[1] * Math.sin(t) : 0);
            max = Math.max(max, f);
            min = Math.min(min, f);
        }
        return max - min;
    }

    int readings;

    double bound_mm() {
        return Math.sqrt(2 * (sigma_mm * sigma_mm + q_mm * q_mm / 12) / readings);
    }

    Trace trace() {
        if (kind == Kind.STATIONS) {
            return stations();
        }
        Trace.Builder builder = new Trace.Builder(LengthUnit.MM, random.nextBoolean() ? q_mm : Double.NaN);
        double meanSpeed = 2 * Math.PI * rate_per_s / perTurn;
        double dt = 1 / rate_per_s;
        double start = between(0, 2 * Math.PI);
        double angle = start;
        int n = (int) Math.ceil(turns * perTurn);
        double offset = between(-0.3, 0.3);
        double markStep = 2 * Math.PI / marksPerTurn;
        double before = start - Math.PI / perTurn;
        double faultAt = start + 2 * Math.PI * between(0.15, 0.85) * turns;
        double faultFor_s = between(0.1, 0.6) * perTurn / rate_per_s;
        int lateAt = -1;
        int i = 0;
        for (; angle - start < 2 * Math.PI * turns && i < 20 * n; i++) {
            double t = i * dt;
            double value =
                    offset + profile_mm(angle) + drift_mm * (t * rate_per_s / n) + sigma_mm * random.nextGaussian();
            if (random.nextDouble() < spikeShare) {
                value += (random.nextBoolean() ? 1 : -1) * q_mm * Math.exp(between(Math.log(8), Math.log(2000)));
            }
            double speed = meanSpeed;
            double wave = 0;
            for (double[] w : waves) {
                wave += w[0] * Math.sin(w[1] * meanSpeed * t + w[2]);
            }
            speed *= Math.exp(wave);
            if (angle >= faultAt && faultFor_s > 0 && (fault == Fault.STOP || fault == Fault.BACK)) {
                faultFor_s -= dt;
                speed = fault == Fault.STOP ? 0 : -speed;
            }
            if (angle >= faultAt && fault == Fault.SPEED_DOUBLED) {
                speed *= 2;
            }
            if (fault == Fault.BACK && faultFor_s > 0 && angle < faultAt && before > faultAt - 0.01) {
                faultAt = angle;
            }
            double boundary = angle + speed * dt / 2;
            // The mark is carried by the reading nearest to its passing.
            boolean mark = marked
                    && Math.floor((boundary - markAt_rad) / markStep) != Math.floor((before - markAt_rad) / markStep);
            if (mark && fault == Fault.MISSED_MARK && angle >= faultAt) {
                mark = false;
                fault = Fault.NONE;
            }
            if (mark && fault == Fault.LATE_MARK && angle >= faultAt) {
                mark = false;
                fault = Fault.NONE;
                lateAt = i + (int) (perTurn / marksPerTurn * between(0.25, 0.6));
            }
            mark |= i == lateAt;
            before = boundary;
            builder.add(new Reading(t, Math.rint(value / q_mm) * q_mm, mark));
            angle += speed * dt;
        }
        readings = i;
        double firstMark = Math.ceil((start - Math.PI / perTurn - markAt_rad) / markStep) * markStep + markAt_rad;
        markAt_rad = firstMark;
        turnedTurns = (angle - start) / (2 * Math.PI);
        return builder.build();
    }

    double turnedTurns;

    private Trace stations() {
        Trace.Builder builder = new Trace.Builder(LengthUnit.MM, q_mm);
        int stations = 12 + 4 * random.nextInt(4);
        int each = 1 + random.nextInt(5);
        for (int n = stations / 3; n < cos.length; n++) {
            cos[n] = 0;
            sin[n] = 0;
        }
        double offset = between(-0.3, 0.3);
        for (int s = 0; s < stations; s++) {
            double deg = 360.0 * s / stations;
            for (int k = 0; k < each; k++) {
                double value = offset + profile_mm(Math.toRadians(deg)) + sigma_mm * random.nextGaussian();
                builder.addAtAngle(new Reading(5 * s + 0.1 * k, Math.rint(value / q_mm) * q_mm), deg);
            }
        }
        readings = stations * each;
        turnedTurns = 1;
        return builder.build();
    }

    @Override
    public String toString() {
        return kind + " seed " + seed;
    }
}

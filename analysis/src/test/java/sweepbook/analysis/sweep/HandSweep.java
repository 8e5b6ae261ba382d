package sweepbook.analysis.sweep;

import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import sweepbook.acquisition.trace.LengthUnit;
import sweepbook.acquisition.trace.Trace;

/**
 * A made-up touch whose truth is known, for tests: a hand moves a round feature past a contact, stops on the crest, jogs
 * in and holds still. Every number comes from the seed.
 */
final class HandSweep {
    enum Kind {
        CLEAN,
        ONE_PASS,
        NOISE_2Q,
        SPIKES,
        DRIFT,
        LOST,
        COARSE,
        UNEVEN,
        FREE_UNEVEN,
        CLICKS,
        ALL
    }

    private static final double DT = 1e-3;

    final Kind kind;
    final long seed;
    final Trace trace;
    /** The crest's reading at the mean drift of its crossings. */
    final double crest_mm;

    final double bound_mm;
    final double stable_mm;
    final double stableBound_mm;
    final double miss_mm;
    final int clicks;
    final double step_mm;
    final double q_mm;
    final double sigma_mm;
    final Pressing pressing;
    final int crossings;

    private final Random random;
    private final List<double[]> path = new ArrayList<>(); // x, jog, crossing id (0 outside), stage
    private double x;
    private double jog;

    HandSweep(Kind kind, long seed) {
        this.kind = kind;
        this.seed = seed;
        random = new Random(seed * 7919 + kind.ordinal());
        double radius = logUniform(3, 50);
        double[] steps = {0.0005, 0.001, 0.001, 0.002, 0.00254, 0.005, 0.01, 0.0127, 0.02};
        q_mm = kind == Kind.COARSE ? steps[4 + random.nextInt(5)] : steps[random.nextInt(steps.length)];
        sigma_mm = q_mm
                * switch (kind) {
                    case NOISE_2Q -> 2;
                    case COARSE -> uniform(0.02, 0.2);
                    default -> logUniform(0.2, 1);
                };
        double rate = logUniform(8, 100);
        pressing = random.nextBoolean() ? Pressing.RAISES : Pressing.LOWERS;
        boolean uneven = kind == Kind.UNEVEN || kind == Kind.FREE_UNEVEN || kind == Kind.ALL;
        boolean free = kind == Kind.FREE_UNEVEN || uniform(0, 1) < 0.4;
        double depth = q_mm * logUniform(25, 250);
        depth = Math.max(12 * sigma_mm, Math.min(depth, 0.35 * radius));
        double reach = Math.sqrt(2 * radius * depth);
        int passes = kind == Kind.ONE_PASS ? 1 : 2 + random.nextInt(5);
        double side = random.nextBoolean() ? 1 : -1;
        x = -side * reach * uniform(0.6, 1);
        if (free) {
            double pressedBy = depth * uniform(1.2, 3);
            jog = -pressedBy - uniform(0.2, 1);
            hold(uniform(0.5, 2), 1);
            double speed = uniform(0.2, 1) * (-jog) / 1.0;
            while (jog < -1e-9) {
                jog = Math.min(0, jog + speed * DT);
                note(0, 2);
            }
            hold(uniform(0.2, 1), 2);
        }
        double clickX = kind == Kind.CLICKS ? reach * uniform(0.03, 0.12) : 0;
        for (int p = 1; p <= passes; p++) {
            double to = side * reach * uniform(0.5, 1);
            double time = Math.max(14 / rate, logUniform(0.6, 4));
            if (clickX > 0) {
                clickTo(to, clickX, p, Math.max(2.2 / rate, uniform(0.15, 0.5)));
            } else {
                move(to, Math.abs(to - x) / time, p, uneven ? uniform(0.2, 0.8) : 0, uneven);
            }
            side = -side;
        }
        double missX = random.nextGaussian() * Math.sqrt(2 * radius * q_mm) * 0.6;
        if (clickX > 0) {
            clickTo(missX, clickX, 0, Math.max(2.2 / rate, 0.2));
        } else {
            move(missX, Math.abs(missX - x) / Math.max(14 / rate, logUniform(0.6, 3)), 0, 0, false);
        }
        hold(Math.max(8 / rate, uniform(1, 3)), 4);
        step_mm = random.nextBoolean() ? 0.01 : 0.0254;
        int count = uniform(0, 1) < 0.3 || step_mm < 3 * q_mm || step_mm < 5 * sigma_mm ? 0 : 1 + random.nextInt(15);
        clicks = count;
        for (int i = 0; i < count; i++) {
            double target = jog + step_mm;
            for (int k = 0; k < 50; k++) {
                jog += step_mm / 50;
                note(0, 5);
            }
            jog = target;
            hold(Math.max(4 / rate, uniform(0.4, 1.2)), 5);
        }
        hold(Math.max(20 / rate, uniform(2, 6)), 6);
        double drift = kind == Kind.DRIFT ? q_mm * uniform(-0.5, 0.5) : 0;
        double rockTau = uniform(0.5, 2);
        double rockAmplitude = kind == Kind.ALL ? q_mm * uniform(1, 6) : 0;
        double rockHz = uniform(2, 8);

        // Sampling.
        double crestLevel = Math.round(uniform(-0.5, 0.5) / q_mm) * q_mm + uniform(-0.5, 0.5) * q_mm;
        double floor = -depth * 1e9;
        if (free) {
            floor = -Math.max(depth * 1.2, depth + 0.1);
        }
        double total = path.size() * DT;
        Trace.Builder builder = new Trace.Builder(q_mm == 0.0127 ? LengthUnit.IN : LengthUnit.MM, Double.NaN);
        double[] crossSum = new double[passes + 1];
        double[][] fisher = new double[passes + 1][9];
        double[] crossTime = new double[passes + 1];
        for (int k = 1; k < path.size(); k++) {
            double[] a = path.get(k - 1);
            double[] b = path.get(k);
            if (b[2] > 0 && crossTime[(int) b[2]] == 0 && a[0] * b[0] <= 0 && a[0] != b[0]) {
                crossTime[(int) b[2]] = k * DT;
            }
        }
        double meanCrossing = 0;
        int crossed = 0;
        for (int p = 1; p <= passes; p++) {
            if (crossTime[p] > 0) {
                meanCrossing += crossTime[p];
                crossed++;
            }
        }
        crossings = crossed;
        meanCrossing /= crossed;
        double variance = sigma_mm * sigma_mm + q_mm * q_mm / 12;
        double[] first = new double[passes + 1];
        double[] last = new double[passes + 1];
        for (int k = 0; k < path.size(); k++) {
            int id = (int) path.get(k)[2];
            if (id > 0) {
                if (first[id] == 0) {
                    first[id] = k + 1;
                }
                last[id] = k + 1;
            }
        }
        int lose = 0;
        int stableCount = 0;
        double stableSum = 0;
        double lastHeld = Double.NaN;
        int heldFor = 0;
        boolean slowDisplay = kind == Kind.ALL && random.nextInt(3) == 0;
        for (double t = uniform(0, 1 / rate); t < total; t += 1 / rate) {
            int k = (int) (t / DT);
            double[] p = path.get(k);
            double s = p[0];
            double drop = radius - Math.sqrt(Math.max(0, radius * radius - s * s));
            double press = Math.max(floor, p[1] - drop);
            double y = pressing.sign() * (crestLevel + press)
                    + drift * t
                    + rockAmplitude * Math.exp(-t / rockTau) * Math.sin(2 * Math.PI * rockHz * t);
            boolean lost = false;
            if (kind == Kind.LOST || kind == Kind.ALL) {
                if (lose > 0) {
                    lose--;
                    lost = true;
                } else if (uniform(0, 1) < 0.02) {
                    lose = random.nextInt(Math.max(2, (int) (rate * 0.25)));
                }
            }
            double read = Math.round((y + sigma_mm * random.nextGaussian()) / q_mm) * q_mm;
            if (slowDisplay && heldFor++ % 3 != 0) {
                read = lastHeld;
            }
            lastHeld = read;
            if ((kind == Kind.SPIKES || kind == Kind.ALL) && uniform(0, 1) < 0.03) {
                read = Math.round((read + (random.nextBoolean() ? 1 : -1) * logUniform(3 * q_mm, 2)) / q_mm) * q_mm;
            }
            if (!lost) {
                double stamp = kind == Kind.ALL ? Math.ceil(t / 0.016) * 0.016 : t;
                builder.add(stamp, read);
                int id = (int) p[2];
                if (id > 0 && crossTime[id] > 0) {
                    double v = Math.sqrt(1 / (2 * radius)) * 2 * reach / ((last[id] - first[id]) * DT);
                    double tau = t - crossTime[id];
                    double[] g = {1, 2 * v * v * tau, -2 * v * tau * tau};
                    for (int i = 0; i < 3; i++) {
                        for (int j = 0; j < 3; j++) {
                            fisher[id][3 * i + j] += g[i] * g[j] / variance;
                        }
                    }
                }
                if (p[3] == 6 || (clicks == 0 && p[3] == 4)) {
                    stableCount++;
                    stableSum += y;
                }
            }
        }
        double information = 0;
        for (int p = 1; p <= passes; p++) {
            double[] f = fisher[p];
            double det = f[4] * f[8] - f[5] * f[7];
            if (det > 0) {
                information += f[0] - (f[1] * (f[8] * f[3] - f[5] * f[6]) + f[2] * (f[4] * f[6] - f[7] * f[3])) / det;
            }
        }
        trace = builder.build();
        bound_mm = 1 / Math.sqrt(information);
        crest_mm = pressing.sign() * crestLevel + drift * meanCrossing;
        stable_mm = stableSum / stableCount;
        stableBound_mm = Math.sqrt(variance / stableCount);
        miss_mm = pressing.sign() * missX * missX / (2 * radius);
    }

    private void note(int crossing, int stage) {
        path.add(new double[] {x, jog, crossing, stage});
    }

    private void hold(double seconds, int stage) {
        for (double t = 0; t < seconds; t += DT) {
            note(0, stage);
        }
    }

    private void clickTo(double to, double click, int crossing, double wait) {
        while (Math.abs(to - x) > click / 2) {
            x += Math.signum(to - x) * click;
            double w = wait * uniform(0.7, 1.5);
            for (double t = 0; t < w; t += DT) {
                note(crossing, 3);
            }
        }
    }

    private void move(double to, double speed, int crossing, double unevenness, boolean tricks) {
        double direction = Math.signum(to - x);
        double f1 = uniform(0.3, 1.5);
        double f2 = uniform(0.8, 3);
        double p1 = uniform(0, 6.28);
        double p2 = uniform(0, 6.28);
        double start = x;
        boolean stops = tricks && uniform(0, 1) < 0.3;
        double stopAt = start + (to - start) * uniform(0.05, 0.95);
        boolean turns = tricks && uniform(0, 1) < 0.2;
        double turnAt = start + (to - start) * uniform(0.1, 0.3);
        int i = 0;
        while (direction * (to - x) > 0) {
            double t = i++ * DT;
            double v = speed
                    * Math.max(
                            0.05,
                            1 + unevenness * (0.7 * Math.sin(6.28 * f1 * t + p1) + 0.4 * Math.sin(6.28 * f2 * t + p2)));
            x += direction * v * DT;
            note(crossing, 3);
            if (stops && direction * (x - stopAt) > 0) {
                stops = false;
                double w = uniform(0.2, 1);
                for (double s = 0; s < w; s += DT) {
                    note(crossing, 3);
                }
            }
            if (turns && direction * (x - turnAt) > 0) {
                turns = false;
                double back = start + (to - start) * 0.02;
                while (direction * (x - back) > 0) {
                    x -= direction * speed * DT;
                    note(crossing, 3);
                }
            }
        }
        x = to;
    }

    private double uniform(double a, double b) {
        return a + (b - a) * random.nextDouble();
    }

    private double logUniform(double a, double b) {
        return a * Math.exp(random.nextDouble() * Math.log(b / a));
    }

    @Override
    public String toString() {
        return kind + " seed " + seed;
    }
}

package sweepbook.simulator.trial;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Random;
import java.util.stream.DoubleStream;
import sweepbook.acquisition.trace.Trace;
import sweepbook.simulator.fault.Chip;
import sweepbook.simulator.fault.Creep;
import sweepbook.simulator.fault.Drift;
import sweepbook.simulator.fault.LostBursts;
import sweepbook.simulator.fault.RockingStand;
import sweepbook.simulator.fault.SlowDisplay;
import sweepbook.simulator.fault.Spikes;
import sweepbook.simulator.fault.UsbLatency;
import sweepbook.simulator.indicator.Disturbance;
import sweepbook.simulator.indicator.LinkFault;
import sweepbook.simulator.indicator.Sample;
import sweepbook.simulator.machine.Axis;
import sweepbook.simulator.technician.Crossing;

/** Makes sweeps of a kind, each from a seed: the same seed gives the same bits. */
public final class SweepTrials {
    private SweepTrials() {}

    public static SweepTrial of(SweepKind kind, long seed) {
        Random random = random(kind, seed);
        SweepSetUp setUp = SweepSetUp.of(kind, random);
        SweepScript script = SweepScript.perform(kind, setUp, random);
        List<Disturbance> disturbances = disturbances(kind, setUp, script, random);
        List<Sample> samples = setUp.record(script, disturbances, random);
        for (LinkFault fault : linkFaults(kind, setUp, random)) {
            samples = fault.on(samples, random);
        }
        return new Truth(kind, seed, setUp, script, disturbances, samples).trial();
    }

    /** Neighbouring seeds of a plain generator begin alike. */
    static Random random(Enum<?> kind, long seed) {
        return new Random(seed * 0x9E3779B97F4A7C15L + kind.name().hashCode());
    }

    private static List<Disturbance> disturbances(SweepKind kind, SweepSetUp setUp, SweepScript script, Random random) {
        double q_mm = setUp.settings().display().resolution_mm();
        double sweep_s = script.sweepTo_s() - script.sweepFrom_s();
        return switch (kind) {
            case DRIFT -> {
                double steps = (random.nextBoolean() ? 1 : -1) * between(2, 10, random);
                yield List.of(new Drift(script.sweepFrom_s(), steps * q_mm / sweep_s));
            }
            case ROCKING_STAND, EVERYTHING ->
                List.of(new RockingStand(
                        script.sweepFrom_s(),
                        q_mm * between(1, 4, random),
                        between(1.5, 5, random),
                        between(0.5, 1.5, random),
                        between(0, 2 * Math.PI, random)));
            case CHIP -> {
                Crossing crossing =
                        script.crossings().get(random.nextInt(script.crossings().size()));
                yield List.of(new Chip(
                        crossing.from_s(),
                        crossing.to_s(),
                        Axis.Y,
                        setUp.width_mm() * between(-0.2, 0.2, random),
                        setUp.width_mm() * between(0.05, 0.2, random),
                        q_mm * between(10, 40, random)));
            }
            case CREEP -> {
                double sign = random.nextBoolean() ? 1 : -1;
                yield List.of(
                        new Creep(script.zeroFrom_s(), sign * q_mm * between(15, 40, random), between(12, 25, random)));
            }
            default -> List.of();
        };
    }

    private static List<LinkFault> linkFaults(SweepKind kind, SweepSetUp setUp, Random random) {
        double range_mm = between(1, 10, random);
        return switch (kind) {
            case SPIKES -> List.of(new Spikes(0.05, setUp.settings().display(), range_mm));
            case LOST_BURSTS -> List.of(new LostBursts(between(0.05, 0.25, random), 12));
            case SLOW_DISPLAY -> List.of(new SlowDisplay(2 + random.nextInt(4)));
            case USB_BURSTS -> List.of(new UsbLatency(between(0.016, 0.1, random)));
            case EVERYTHING ->
                List.of(
                        new Spikes(between(0.01, 0.05, random), setUp.settings().display(), range_mm),
                        new LostBursts(between(0.03, 0.15, random), 10),
                        new UsbLatency(between(0.016, 0.1, random)));
            default -> List.of();
        };
    }

    static double between(double low, double high, Random random) {
        return low + (high - low) * random.nextDouble();
    }

    /** Evenly spread in the logarithm. */
    static double ratioBetween(double low, double high, Random random) {
        return low * Math.pow(high / low, random.nextDouble());
    }

    /** What is known of a trial because it was made. */
    private record Truth(
            SweepKind kind,
            long seed,
            SweepSetUp setUp,
            SweepScript script,
            List<Disturbance> disturbances,
            List<Sample> samples) {
        SweepTrial trial() {
            List<Sample> dwell = new ArrayList<>();
            samples.stream().filter(s -> s.taken_s() >= script.zeroFrom_s()).forEach(dwell::add);
            double[] level_mm = dwell.stream()
                    .mapToDouble(s -> setUp.settings()
                            .level_mm(setUp.press_mm(script.machine().at(s.taken_s())) + shift_mm(s.taken_s())))
                    .toArray();
            boolean creeps = kind == SweepKind.CREEP;
            double zero_mm = DoubleStream.of(level_mm).average().orElse(Double.NaN);
            return new SweepTrial(
                    kind,
                    seed,
                    trace(),
                    setUp.settings().pressingSign(),
                    setUp.settings().noise_mm(),
                    crest_mm(),
                    crestBound_mm(),
                    creeps ? Double.NaN : zero_mm,
                    drift_mm_per_s(),
                    creeps ? Double.NaN : zeroBound_mm(dwell, level_mm, zero_mm),
                    setUp.settings().pressingSign() * setUp.drop_mm(script.stop_mm()),
                    script.crossings(),
                    script.clicks(),
                    script.sweepFrom_s(),
                    script.sweepTo_s(),
                    script.zeroFrom_s());
        }

        private double drift_mm_per_s() {
            return kind == SweepKind.DRIFT
                    ? setUp.settings().pressingSign()
                            * (shift_mm(script.zeroFrom_s() + 1) - shift_mm(script.zeroFrom_s()))
                    : 0;
        }

        private Trace trace() {
            Trace.Builder builder = new Trace.Builder(
                    setUp.settings().display().unit(),
                    setUp.settings().display().resolution_mm());
            samples.forEach(sample -> builder.add(sample.reading()));
            return builder.build();
        }

        /** A drift counts at the mean of the crossings; a stand that rocks, or a chip, does not move the crest. */
        private double crest_mm() {
            double press_mm =
                    setUp.press_mm(script.machine().at(script.sweepFrom_s()).with(Axis.Y, 0));
            double drift_mm = kind != SweepKind.DRIFT
                    ? 0
                    : script.crossings().stream()
                            .mapToDouble(crossing -> shift_mm(crossing.crest_s()))
                            .average()
                            .orElseThrow();
            return setUp.settings().level_mm(press_mm + drift_mm);
        }

        private double crestBound_mm() {
            CrestBound bound = new CrestBound(setUp.reach_mm(), setUp.settings().variance_mm2());
            for (Crossing crossing : script.crossings()) {
                for (Sample sample : samples) {
                    double s_mm = script.machine().at(sample.taken_s()).y_mm();
                    boolean within = sample.taken_s() >= crossing.from_s() && sample.taken_s() <= crossing.to_s();
                    if (within
                            && sample.intact()
                            && setUp.press_mm(script.machine().at(sample.taken_s())) > 0) {
                        bound.reading(s_mm);
                    }
                }
                bound.endOfPass();
            }
            return bound.stdU_mm();
        }

        private double zeroBound_mm(List<Sample> dwell, double[] level_mm, double zero_mm) {
            double[] intact_mm = new double[dwell.size()];
            double[] departure_mm = new double[dwell.size()];
            int n = 0;
            for (int i = 0; i < dwell.size(); i++) {
                if (dwell.get(i).intact()) {
                    intact_mm[n] = dwell.get(i).reading().reading_mm();
                    departure_mm[n++] = level_mm[i] - zero_mm;
                }
            }
            return LevelBound.stdU_mm(
                    Arrays.copyOf(intact_mm, n),
                    Arrays.copyOf(departure_mm, n),
                    setUp.settings().noise_mm(),
                    setUp.settings().display().resolution_mm());
        }

        private double shift_mm(double time_s) {
            return disturbances.stream()
                    .mapToDouble(d -> d.shift_mm(time_s, script.machine().at(time_s)))
                    .sum();
        }
    }
}

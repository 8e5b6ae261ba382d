package sweepbook.simulator.trial;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import java.util.function.Supplier;
import java.util.stream.DoubleStream;
import java.util.stream.IntStream;
import org.hipparchus.linear.Array2DRowRealMatrix;
import org.hipparchus.linear.ArrayRealVector;
import org.hipparchus.linear.LUDecomposition;
import org.junit.jupiter.api.Test;

/**
 * Whether the bound of out-of-roundness is the right one: least squares that is told the undulations a part has, the noise
 * and how such a turning wanders, and that starts at the truth, comes as near to it as the bound lets it, and no nearer.
 */
class RoundnessOracleTest {
    /** More of them by -Doracle.parts=200; the build tries a few. */
    private static final int PARTS = Integer.getInteger("oracle.parts", 12);

    private static final double STEP_MM = 0.001;
    private static final double NOISE_MM = 0.0006;
    private static final double VARIANCE_MM2 = NOISE_MM * NOISE_MM + STEP_MM * STEP_MM / 12;
    private static final int UNDULATIONS = 9;
    private static final int OF_PROFILE = 2 + 2 * UNDULATIONS;
    private static final int ROUNDS = 5;
    private static final int READINGS_A_TURN = 120;
    private static final int TURNS = 3;

    private final Random random = new Random(20261128);

    /** Stands at each of 24 angles for half a second. */
    private record Stations() implements Turning {
        @Override
        public double angle_deg(double time_s) {
            return 15 * Math.floor(2 * time_s);
        }

        @Override
        public double[] unknowns_deg(double time_s) {
            return new double[0];
        }
    }

    @Test
    void atStations() {
        check(Stations::new, 0);
    }

    @Test
    void turnedEvenly() {
        check(() -> new Turning.Even(-between(0, 360), 36), 1);
    }

    @Test
    void turnedByHandWithTwelveMarks() {
        check(() -> Turning.ByHand.of(-between(0, 30), 36, 0.5, random), 12);
    }

    /** The root mean square of error over bound is 1, give or take thrice what so few parts leave open, 1 / sqrt(2 n). */
    private void check(Supplier<Turning> turning, int marksPerTurn) {
        double squares = 0;
        for (int i = 0; i < PARTS; i++) {
            TurnedPart part = TurnedPart.of(STEP_MM, random);
            Oracle oracle = new Oracle(part, turning.get(), marksPerTurn);
            double bound_mm = oracle.read();
            double miss_mm = oracle.outOfRoundness_mm() - part.outOfRoundness_mm();
            squares += miss_mm * miss_mm / bound_mm / bound_mm;
        }
        assertEquals(1, Math.sqrt(squares / PARTS), 3 / Math.sqrt(2 * PARTS));
    }

    private double between(double least, double most) {
        return least + (most - least) * random.nextDouble();
    }

    /** Where a mark stands further on than the part at the reading that carries it. */
    private record Mark(double time_s, double further_deg, double variance_deg2) {}

    /** Readings of one part, and least squares by what it is told. Unknowns of the motion count from the truth. */
    private final class Oracle {
        private final TurnedPart part;
        private final Turning turning;
        private final int marksPerTurn;
        private final double[] beforehand;
        private final double[] x;
        private double[] time_s;
        private double[] reading_mm;
        private final List<Mark> marks = new ArrayList<>();

        Oracle(TurnedPart part, Turning turning, int marksPerTurn) {
            this.part = part;
            this.turning = turning;
            this.marksPerTurn = marksPerTurn;
            // What is believed beforehand lies as far off the truth as a turning wanders.
            beforehand = IntStream.range(0, turning.unknowns_deg(0).length)
                    .mapToDouble(k -> random.nextGaussian())
                    .toArray();
            x = new double[OF_PROFILE + beforehand.length];
            double high_rad = Math.toRadians(part.highSpot_deg());
            x[2] = part.eccentricity_mm() * Math.cos(high_rad);
            x[3] = part.eccentricity_mm() * Math.sin(high_rad);
        }

        /** Gives the bound. */
        double read() {
            int n = READINGS_A_TURN * TURNS;
            double apart_s = 10.0 / READINGS_A_TURN;
            RoundnessBound bound = new RoundnessBound(part, VARIANCE_MM2, beforehand.length);
            time_s = new double[n];
            reading_mm = new double[n];
            for (int i = 0; i < n; i++) {
                time_s[i] = i * apart_s;
                double angle_deg = turning.angle_deg(time_s[i]);
                double noisy_mm = 0.5 + part.standsOut_mm(angle_deg) + NOISE_MM * random.nextGaussian();
                reading_mm[i] = STEP_MM * Math.rint(noisy_mm / STEP_MM);
                bound.reading(time_s[i], angle_deg, turning.unknowns_deg(time_s[i]));
                double before_deg = turning.angle_deg(time_s[i] - apart_s / 2);
                double after_deg = turning.angle_deg(time_s[i] + apart_s / 2);
                double number = Math.floor(after_deg * marksPerTurn / 360);
                if (number != Math.floor(before_deg * marksPerTurn / 360)) {
                    double window_deg = after_deg - before_deg;
                    bound.mark(window_deg * window_deg / 12, turning.unknowns_deg(time_s[i]));
                    marks.add(
                            new Mark(time_s[i], number * 360 / marksPerTurn - angle_deg, window_deg * window_deg / 12));
                }
            }
            return bound.stdU_mm();
        }

        double outOfRoundness_mm() {
            for (int round = 0; round < ROUNDS; round++) {
                step();
            }
            double[] form_mm =
                    IntStream.range(0, 3600).mapToDouble(i -> form_mm(0.1 * i)).toArray();
            return DoubleStream.of(form_mm).max().orElseThrow()
                    - DoubleStream.of(form_mm).min().orElseThrow();
        }

        private void step() {
            double[][] information = new double[x.length][x.length];
            double[] pull = new double[x.length];
            for (int k = 0; k < beforehand.length; k++) {
                information[OF_PROFILE + k][OF_PROFILE + k] = 1;
                pull[OF_PROFILE + k] = beforehand[k] - x[OF_PROFILE + k];
            }
            for (int i = 0; i < time_s.length; i++) {
                double[] row = new double[x.length];
                double[] per_deg = turning.unknowns_deg(time_s[i]);
                double angle_deg = turning.angle_deg(time_s[i]) + further_deg(per_deg);
                row[0] = 1;
                row[1] = time_s[i];
                double slope = 0;
                for (int n = 1; n <= UNDULATIONS; n++) {
                    double phase_rad = Math.toRadians(n * angle_deg);
                    row[2 * n] = Math.cos(phase_rad);
                    row[2 * n + 1] = Math.sin(phase_rad);
                    slope += Math.toRadians(n) * (x[2 * n + 1] * row[2 * n] - x[2 * n] * row[2 * n + 1]);
                }
                double miss = reading_mm[i];
                for (int j = 0; j < OF_PROFILE; j++) {
                    miss -= row[j] * x[j];
                }
                for (int k = 0; k < beforehand.length; k++) {
                    row[OF_PROFILE + k] = slope * per_deg[k];
                }
                add(information, pull, row, miss, VARIANCE_MM2);
            }
            for (Mark mark : marks) {
                double[] row = new double[x.length];
                double[] per_deg = turning.unknowns_deg(mark.time_s());
                System.arraycopy(per_deg, 0, row, OF_PROFILE, per_deg.length);
                add(information, pull, row, mark.further_deg() - further_deg(per_deg), mark.variance_deg2());
            }
            double[] change = new LUDecomposition(new Array2DRowRealMatrix(information, false))
                    .getSolver()
                    .solve(new ArrayRealVector(pull, false))
                    .toArray();
            for (int j = 0; j < x.length; j++) {
                x[j] += change[j];
            }
        }

        private double further_deg(double[] per_deg) {
            return IntStream.range(0, per_deg.length)
                    .mapToDouble(k -> per_deg[k] * x[OF_PROFILE + k])
                    .sum();
        }

        private void add(double[][] information, double[] pull, double[] row, double miss, double variance) {
            for (int j = 0; j < row.length; j++) {
                double weighted = row[j] / variance;
                if (weighted != 0) {
                    pull[j] += weighted * miss;
                    for (int k = 0; k < row.length; k++) {
                        information[j][k] += weighted * row[k];
                    }
                }
            }
        }

        private double form_mm(double angle_deg) {
            double sum = 0;
            for (int n = 2; n <= UNDULATIONS; n++) {
                double phase_rad = Math.toRadians(n * angle_deg);
                sum += x[2 * n] * Math.cos(phase_rad) + x[2 * n + 1] * Math.sin(phase_rad);
            }
            return sum;
        }
    }
}

package sweepbook.analysis.sweep;

import java.util.Random;
import java.util.concurrent.TimeUnit;
import org.openjdk.jmh.annotations.Benchmark;
import org.openjdk.jmh.annotations.BenchmarkMode;
import org.openjdk.jmh.annotations.Fork;
import org.openjdk.jmh.annotations.Measurement;
import org.openjdk.jmh.annotations.Mode;
import org.openjdk.jmh.annotations.OutputTimeUnit;
import org.openjdk.jmh.annotations.Param;
import org.openjdk.jmh.annotations.Scope;
import org.openjdk.jmh.annotations.Setup;
import org.openjdk.jmh.annotations.State;
import org.openjdk.jmh.annotations.Warmup;
import sweepbook.acquisition.trace.LengthUnit;
import sweepbook.acquisition.trace.Trace;

/**
 * Time of a whole trace's findings (divide by the readings), and of feeding a reading while it is captured.
 *
 * <p>Run from the top, on one core: {@code taskset -c 1 mvn -q verify -Pbenchmark -pl analysis -am -DskipTests
 * -Dbenchmark=SweepBenchmark}. {@code analysis/src/test/bench/general_tools.py} times general-purpose tools on the same trace.
 */
@BenchmarkMode(Mode.AverageTime)
@Fork(1)
@Warmup(iterations = 20, time = 1)
@Measurement(iterations = 5, time = 1)
public class SweepBenchmark {
    private static final double INTERVAL_S = 0.0005;
    private static final double Q_MM = 0.001;

    @State(Scope.Benchmark)
    public static class Sweep {
        @Param({"1000", "10000", "100000", "1000000", "10000000"})
        int readings;

        Trace trace;

        @Setup
        public void build() {
            Random random = new Random(11);
            double[] time_s = new double[readings];
            double[] reading_mm = new double[readings];
            for (int i = 0; i < readings; i++) {
                time_s[i] = INTERVAL_S * i;
                reading_mm[i] = reading_mm((double) i / readings, random);
            }
            trace = Trace.of(LengthUnit.MM, Q_MM, time_s, reading_mm);
        }
    }

    /** The needle of a sweep that never ends, or one at rest: noise of a fifth of a step, hidden mostly by the display. */
    @State(Scope.Benchmark)
    public static class Capture {
        private static final int LENGTH = 1 << 16;

        @Param({"sweeping", "resting"})
        String needle;

        final SweepReader reader = new SweepReader(SweepSettings.FROM_THE_TRACE);
        final double[] reading_mm = new double[LENGTH];
        int count;

        @Setup
        public void build() {
            Random random = new Random(12);
            for (int i = 0; i < LENGTH; i++) {
                double steps = 0.2 * random.nextGaussian()
                        + (needle.equals("resting") ? 0.3 : 200 * Math.cos(2 * Math.PI * i / LENGTH));
                reading_mm[i] = Q_MM * Math.round(steps);
            }
        }
    }

    /** Five passes over a round of 10 mm, then a stop on the crest. */
    private static double reading_mm(double share, Random random) {
        double x = share < 0.8 ? 2 * Math.cos(2 * Math.PI * 2.5 * share / 0.8 + 0.3) : 0.05;
        double exact = 0.2 - (10 - Math.sqrt(100 - x * x)) + 0.0005 * random.nextGaussian();
        return Math.round(exact / Q_MM) * Q_MM;
    }

    @Benchmark
    @OutputTimeUnit(TimeUnit.MILLISECONDS)
    public SweepFindings whole(Sweep sweep) {
        return SweepReader.read(sweep.trace, SweepSettings.FROM_THE_TRACE);
    }

    @Benchmark
    @OutputTimeUnit(TimeUnit.NANOSECONDS)
    public void live(Capture capture) {
        int i = capture.count++;
        capture.reader.add(INTERVAL_S * i, capture.reading_mm[i & (Capture.LENGTH - 1)]);
    }
}

package sweepbook.analysis.network;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.concurrent.TimeUnit;
import org.hipparchus.random.RandomGenerator;
import org.hipparchus.random.Well19937c;
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
import sweepbook.analysis.uncertainty.Estimate;

/**
 * Whole adjustment with redundancy numbers, ten touches a point. "near" ties every point to some of its twenty neighbours, as
 * set-ups along an axis do; "anywhere" ties points at random, the worst there is for fill.
 *
 * <p>Run from the top: {@code mvn -q verify -Pbenchmark -pl analysis -am -DskipTests -Dbenchmark=NetworkBenchmark}
 */
@BenchmarkMode(Mode.AverageTime)
@OutputTimeUnit(TimeUnit.MILLISECONDS)
@Fork(1)
@Warmup(iterations = 3, time = 1)
@Measurement(iterations = 5, time = 1)
public class NetworkBenchmark {
    @State(Scope.Benchmark)
    public static class Near {
        @Param({"1000", "4000", "16000"})
        int points;

        Network network;

        @Setup
        public void build() {
            network = network(points, 20, 42);
        }
    }

    @State(Scope.Benchmark)
    public static class Anywhere {
        @Param("1000")
        int points;

        Network network;

        @Setup
        public void build() {
            network = network(points, points, 42);
        }
    }

    static Network network(int points, int reach, long seed) {
        RandomGenerator random = new Well19937c(seed);
        List<Observation> observations = new ArrayList<>();
        for (int point = 1; point <= points; point++) {
            for (int touch = 0; touch < 10; touch++) {
                int other = touch == 0 ? point - 1 : Math.max(0, point - 1 - random.nextInt(Math.min(reach, point)));
                Estimate difference =
                        new Estimate(point - other + 0.003 * random.nextGaussian(), 0.003, Double.POSITIVE_INFINITY);
                observations.add(new Observation("touch", "p" + other, "p" + point, difference));
            }
        }
        return new Network(Map.of("p0", 0.0), observations);
    }

    @Benchmark
    public double near(Near touches) {
        return touches.network.adjust(Sigma.AS_STATED, Reliability.USUAL).sigma0();
    }

    @Benchmark
    public double anywhere(Anywhere touches) {
        return touches.network.adjust(Sigma.AS_STATED, Reliability.USUAL).sigma0();
    }
}

package sweepbook.analysis.runout.circle;

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

/**
 * The minimum zone of a million points of a circle, rough and smooth. Run from the top folder:
 *
 * <pre>
 * mvn -q test-compile -pl analysis -am
 * mvn -q exec:java -pl analysis -Dexec.classpathScope=test -Dexec.mainClass=org.openjdk.jmh.Main -Dexec.args=MinimumZoneBenchmark
 * </pre>
 */
@BenchmarkMode(Mode.SingleShotTime)
@OutputTimeUnit(TimeUnit.MILLISECONDS)
@Fork(3)
@Warmup(iterations = 0)
@Measurement(iterations = 1)
@State(Scope.Benchmark)
public class MinimumZoneBenchmark {
    private static final int POINTS = 1_000_000;

    @Param({"0", "0.001"})
    public double noise_mm;

    private double[] angle_rad;
    private double[] radius_mm;

    @Setup
    public void circle() {
        Random random = new Random(1);
        angle_rad = new double[POINTS];
        radius_mm = new double[POINTS];
        for (int i = 0; i < POINTS; i++) {
            double angle = 2 * Math.PI * i / POINTS;
            angle_rad[i] = angle;
            radius_mm[i] =
                    20 + 0.02 * Math.cos(angle - 1) + 0.003 * Math.cos(3 * angle) + noise_mm * random.nextGaussian();
        }
    }

    @Benchmark
    public Roundness find() {
        return CircleFit.ofRunout(ReferenceCircle.MINIMUM_ZONE, angle_rad, radius_mm);
    }
}

package sweepbook.analysis.runout;

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
import sweepbook.acquisition.trace.Reading;
import sweepbook.acquisition.trace.Trace;
import sweepbook.analysis.uncertainty.Finding;

/**
 * A million readings from trace to all figures. Run from the top folder:
 *
 * <pre>
 * mvn -q test-compile -pl analysis -am
 * mvn -q exec:java -pl analysis -Dexec.classpathScope=test -Dexec.mainClass=org.openjdk.jmh.Main -Dexec.args=RunoutBenchmark
 * </pre>
 */
@BenchmarkMode(Mode.SingleShotTime)
@OutputTimeUnit(TimeUnit.MILLISECONDS)
@Fork(3)
@Warmup(iterations = 0)
@Measurement(iterations = 1)
@State(Scope.Benchmark)
public class RunoutBenchmark {
    private static final int READINGS = 1_000_000;

    @Param({"10", "100", "1000"})
    public int turns;

    @Param({"true", "false"})
    public boolean marked;

    private Trace trace;

    @Setup
    public void turn() {
        Random random = new Random(1);
        Trace.Builder builder = new Trace.Builder(LengthUnit.MM, 0.001);
        double before = -1;
        for (int i = 0; i < READINGS; i++) {
            double turned = turns * (i + 0.37) / READINGS;
            double angle = 2 * Math.PI * turned;
            double reading = 0.02 * Math.cos(angle - 1) + 0.003 * Math.cos(3 * angle) + 0.0007 * random.nextGaussian();
            boolean mark = marked && Math.floor(turned) != before;
            before = Math.floor(turned);
            builder.add(new Reading(i * 0.001, Math.rint(reading / 0.001) * 0.001, mark));
        }
        trace = builder.build();
    }

    @Benchmark
    public Finding<Runout> read() {
        return RunoutReader.read(trace, RunoutSettings.USUAL);
    }
}

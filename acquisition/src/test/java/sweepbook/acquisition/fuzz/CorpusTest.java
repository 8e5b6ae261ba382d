package sweepbook.acquisition.fuzz;

import java.util.stream.Stream;
import org.junit.jupiter.api.DynamicTest;
import org.junit.jupiter.api.TestFactory;
import org.junit.jupiter.api.Timeout;

/** Replays the kept inputs of every fuzz target; each has to end, and without a fault of ours. */
@Timeout(30)
class CorpusTest {
    @TestFactory
    Stream<DynamicTest> traces() throws Exception {
        return Corpus.replay(FuzzTargets.Traces.class, FuzzTargets.Traces::fuzzerTestOneInput);
    }

    @TestFactory
    Stream<DynamicTest> wire() throws Exception {
        return Corpus.replay(FuzzTargets.Wire.class, FuzzTargets.Wire::fuzzerTestOneInput);
    }

    @TestFactory
    Stream<DynamicTest> profile() throws Exception {
        return Corpus.replay(FuzzTargets.Profile.class, FuzzTargets.Profile::fuzzerTestOneInput);
    }

    @TestFactory
    Stream<DynamicTest> journals() throws Exception {
        return Corpus.replay(FuzzTargets.Journals.class, FuzzTargets.Journals::fuzzerTestOneInput);
    }
}

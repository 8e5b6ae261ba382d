package sweepbook.cli.book;

import java.util.stream.Stream;
import org.junit.jupiter.api.DynamicTest;
import org.junit.jupiter.api.TestFactory;
import org.junit.jupiter.api.Timeout;
import sweepbook.acquisition.fuzz.Corpus;

/** Replays the kept inputs of the fuzz targets of plans and books; each has to end, and without a fault of ours. */
@Timeout(30)
class CorpusTest {
    @TestFactory
    Stream<DynamicTest> plans() throws Exception {
        return Corpus.replay(FuzzTargets.Plans.class, FuzzTargets.Plans::fuzzerTestOneInput);
    }

    @TestFactory
    Stream<DynamicTest> books() throws Exception {
        return Corpus.replay(FuzzTargets.Books.class, FuzzTargets.Books::fuzzerTestOneInput);
    }
}

package sweepbook.cli.command;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import java.util.concurrent.atomic.AtomicLong;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;
import sweepbook.acquisition.journal.JournalCheck;
import sweepbook.acquisition.journal.JournalEntry;
import sweepbook.acquisition.journal.JournalReader;
import sweepbook.cli.book.Attempt;
import sweepbook.cli.book.Book;
import sweepbook.cli.book.BookEvent.Moment;
import sweepbook.cli.book.BookFile;
import sweepbook.cli.book.Offsets;

/**
 * Kills a running measurement without warning, again and again, and has the same command go on with the book each time.
 * The simulator sends much faster than its true cadence; no reading may be missing between its stamps.
 */
@Timeout(3600)
class KilledMeasureTest {
    /** Each takes a fifth of a processor. */
    private static final int BESIDE = Math.min(8, Victims.KILLS);

    /** A touch takes the virtual technician about 50 s, at the pace of the job 5 s. */
    private static final int WITHIN_MS = 1000 * Integer.getInteger("kill.within_s", 4);

    /** The virtual indicator's readings follow each other so; one that is missing leaves twice as much. */
    private static final double ONE_AND_A_HALF_READINGS = 1.5;

    /** Of so many at random instants some come behind a touch. */
    private static final int ENOUGH_FOR_A_TOUCH = 20;

    @TempDir
    Path folder;

    private final AtomicLong sessions = new AtomicLong();
    private final AtomicLong lines = new AtomicLong();
    private final AtomicLong readings = new AtomicLong();
    private final AtomicLong positions = new AtomicLong();
    private final AtomicLong torn = new AtomicLong();
    private final AtomicLong complete = new AtomicLong();

    @Test
    void aKilledMeasurementKeepsItsBookAndGoesOn() throws Exception {
        Victims.share(BESIDE, this::kill);
        System.out.println("measure: " + Victims.KILLS + " kills, each gone on with (" + sessions + " sessions); "
                + lines + " lines with " + readings + " readings whole in their order, " + positions
                + " positions acknowledged, 0 of them lost; " + torn + " last lines torn; " + complete
                + " books came to their end; seed " + Victims.SEED);
        assertTrue(readings.get() > 0, "nothing was ever captured");
        assertTrue(positions.get() > 0 || Victims.KILLS < ENOUGH_FOR_A_TOUCH, "no touch was ever kept");
    }

    private void kill(int kills, Random random) throws Exception {
        Path shelf = Files.createTempDirectory(folder, "killed");
        int done = 0;
        for (int number = 0; done < kills; number++) {
            Path file = shelf.resolve("number-" + number + ".book");
            MeasuredJob job = new MeasuredJob(file, random.nextInt(1000));
            List<JournalEntry> before = List.of();
            boolean ended = false;
            while (!ended && done < kills) {
                ended = job.session(random.nextInt(WITHIN_MS));
                done += ended ? 0 : 1;
                sessions.incrementAndGet();
                before = assertWhole(file, before, job);
            }
            if (ended) {
                complete.incrementAndGet();
                assertTrue(
                        new Offsets(BookFile.read(file)).all().stream().allMatch(offset -> offset.result()
                                .isFound()),
                        job.said());
            }
            Book book = BookFile.read(file);
            lines.addAndGet(before.size());
            positions.addAndGet(job.acknowledged().size());
            book.attempts()
                    .forEach(attempt -> readings.addAndGet(attempt.trace().size()));
        }
    }

    /** The chain is whole, the lines of the sessions before stand as they were, all that was acknowledged is there. */
    private List<JournalEntry> assertWhole(Path file, List<JournalEntry> before, MeasuredJob job) throws Exception {
        torn.addAndGet(JournalCheck.of(file).tornBytes() > 0 ? 1 : 0);
        List<JournalEntry> now = JournalReader.readAll(file);
        assertTrue(now.size() >= before.size());
        assertEquals(before, now.subList(0, before.size()));
        Book book = BookFile.read(file);
        List<String> kept = new ArrayList<>();
        for (Attempt attempt : book.attempts()) {
            assertNoneMissing(attempt, job);
            if (attempt.isKept()) {
                kept.add(attempt.offset() + "/" + attempt.touch() + " "
                        + attempt.taken(Moment.AT_THE_END).orElseThrow().typed().text());
            }
        }
        assertTrue(kept.containsAll(job.acknowledged()), job.acknowledged() + " acknowledged, but " + kept + " kept");
        return now;
    }

    private static void assertNoneMissing(Attempt attempt, MeasuredJob job) {
        for (int i = 1; i < attempt.trace().size(); i++) {
            double step_s = attempt.trace().time_s(i) - attempt.trace().time_s(i - 1);
            assertTrue(
                    step_s > 0 && step_s < ONE_AND_A_HALF_READINGS * job.interval_s(),
                    "attempt " + attempt.number() + ", reading " + i + ": " + step_s + " s after the one before");
        }
    }
}

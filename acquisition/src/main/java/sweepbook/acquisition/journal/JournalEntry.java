package sweepbook.acquisition.journal;

import com.fasterxml.jackson.databind.node.ObjectNode;
import java.time.Instant;

/**
 * One line of a journal.
 *
 * @param sequence 1 for the first line, then one more each
 * @param monotonic_s when it was written, by the monotonic clock of the session that wrote it
 * @param wall when it was written, by the wall clock
 * @param kind what the payload is
 */
public record JournalEntry(long sequence, double monotonic_s, Instant wall, String kind, ObjectNode payload) {}

package sweepbook.acquisition.journal;

import java.io.IOException;
import java.nio.file.Path;
import java.util.Optional;

/**
 * What a check of a whole journal finds; a line that was altered, removed or swapped is a JournalException with its
 * number instead.
 *
 * @param lines how many lines the chain has
 * @param hash of the last line: it stands for the whole journal, and can be noted elsewhere
 * @param tornBytes length of a last line that a crash tore, 0 where there is none
 * @param endKnown whether the file beside it vouches that no last lines are missing
 */
public record JournalCheck(long lines, String hash, int tornBytes, boolean endKnown) {
    public static JournalCheck of(Path file) throws JournalException {
        try (JournalReader reader = JournalReader.open(file)) {
            // Read first: a writer at work may only carry the journal further.
            Optional<Tip> tip = TipFile.read(file);
            boolean reached = tip.isEmpty();
            while (reader.next().isPresent()) {
                reached = reached || reader.chain().isAt(tip.orElseThrow());
            }
            if (!reached) {
                throw missingEnd(file, tip.orElseThrow(), reader.chain().sequence());
            }
            return new JournalCheck(
                    reader.chain().sequence(), reader.chain().hash(), reader.torn().length, tip.isPresent());
        } catch (JournalException e) {
            throw e;
        } catch (IOException e) {
            throw new JournalException(file + ": cannot be read (" + e.getMessage() + ")", e);
        }
    }

    private static JournalException missingEnd(Path file, Tip tip, long lines) {
        if (lines < tip.sequence()) {
            return new JournalException(
                    file + ", line " + (lines + 1) + ": is missing; " + tip.sequence() + " lines were written at least",
                    lines + 1);
        }
        return new JournalException(
                file + ", line " + tip.sequence()
                        + ": is not the one that was written, by the tip file beside the book",
                tip.sequence());
    }
}

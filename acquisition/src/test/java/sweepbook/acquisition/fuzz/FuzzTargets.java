package sweepbook.acquisition.fuzz;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import sweepbook.acquisition.journal.JournalCheck;
import sweepbook.acquisition.journal.JournalException;
import sweepbook.acquisition.json.JsonFault;
import sweepbook.acquisition.trace.Trace;
import sweepbook.acquisition.trace.TraceCsv;
import sweepbook.acquisition.trace.TraceFault;
import sweepbook.acquisition.wire.Decoded;
import sweepbook.acquisition.wire.FrameDecoder;
import sweepbook.acquisition.wire.IndicatorProfile;
import sweepbook.acquisition.wire.Profiles;

/**
 * Everything that reads bytes from outside, as targets of a coverage-guided fuzzer: it may refuse bytes with its own
 * fault, and nothing else. {@link CorpusTest} replays what is kept in the test resources; to search for more, with target
 * Traces, Wire, Profile or Journals:
 *
 * <pre>
 * mvn -q -Pfuzz -pl acquisition test-compile exec:exec -Dtarget=Traces -Dseconds=600
 * </pre>
 *
 * <p>What breaks a reader lies in the module's target folder afterwards as crash-...: mend the reader, and keep the input.
 */
public final class FuzzTargets {
    private FuzzTargets() {}

    /** A trace file is read, with all that a trace promises, or refused with its name. */
    public static final class Traces {
        private Traces() {}

        public static void fuzzerTestOneInput(byte[] file) throws IOException {
            try {
                Trace trace = TraceCsv.read(new ByteArrayInputStream(file), "fuzz.csv");
                assertFalse(trace.isEmpty());
                for (int i = 1; i < trace.size(); i++) {
                    assertTrue(trace.time_s(i) >= trace.time_s(i - 1) && Double.isFinite(trace.reading_mm(i)));
                }
            } catch (TraceFault e) {
                assertTrue(e.getMessage().startsWith("fuzz.csv"), e.getMessage());
            }
        }
    }

    /** Bytes are decoded, the same in pieces of any size; the first byte chooses the profile. */
    public static final class Wire {
        private static final List<IndicatorProfile> PROFILES =
                Profiles.BUNDLED.stream().map(Profiles::bundled).toList();

        private Wire() {}

        public static void fuzzerTestOneInput(byte[] bytes) {
            if (bytes.length > 0) {
                IndicatorProfile profile = PROFILES.get(Math.floorMod(bytes[0], PROFILES.size()));
                List<Decoded> whole = decode(profile, bytes, bytes.length);
                assertEquals(whole, decode(profile, bytes, 1));
                assertEquals(whole, decode(profile, bytes, 3));
            }
        }

        private static List<Decoded> decode(IndicatorProfile profile, byte[] bytes, int piece) {
            FrameDecoder decoder = new FrameDecoder(profile);
            List<Decoded> all = new ArrayList<>();
            for (int at = 1; at < bytes.length; at += piece) {
                decoder.feed(bytes, at, Math.min(piece, bytes.length - at));
                for (Decoded d = decoder.next(); d != Decoded.NeedMore.NEED_MORE; d = decoder.next()) {
                    all.add(d);
                }
            }
            decoder.giveUp("end").ifPresent(all::add);
            return all;
        }
    }

    /** A profile is read or refused with its name; one that is read decodes whatever follows a zero byte. */
    public static final class Profile {
        private Profile() {}

        public static void fuzzerTestOneInput(byte[] input) {
            String text = new String(input, StandardCharsets.UTF_8);
            int zero = text.indexOf(0) < 0 ? text.length() : text.indexOf(0);
            try {
                IndicatorProfile profile = Profiles.parse("fuzz.json", text.substring(0, zero));
                byte[] wire = text.substring(zero).getBytes(StandardCharsets.ISO_8859_1);
                Wire.decode(profile, wire, Math.max(1, wire.length));
            } catch (JsonFault e) {
                assertTrue(e.getMessage().startsWith("fuzz.json"), e.getMessage());
            }
        }
    }

    /** A book is checked or refused with its name. */
    public static final class Journals {
        private Journals() {}

        public static void fuzzerTestOneInput(byte[] file) throws IOException {
            Path folder = Files.createTempDirectory("sweepbook-fuzz");
            Path book = folder.resolve("fuzz.book");
            try {
                Files.write(book, file);
                assertTrue(JournalCheck.of(book).lines() > 0);
            } catch (JournalException e) {
                assertTrue(e.getMessage().startsWith(book.toString()), e.getMessage());
            } finally {
                Files.delete(book);
                Files.delete(folder);
            }
        }
    }
}

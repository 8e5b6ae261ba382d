package sweepbook.acquisition.wire;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;

import java.io.ByteArrayOutputStream;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.OptionalDouble;
import java.util.Random;
import net.jqwik.api.Arbitraries;
import net.jqwik.api.Arbitrary;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.Provide;
import net.jqwik.api.constraints.IntRange;
import sweepbook.acquisition.trace.Reading;

/** Laws of every bundled profile. */
class FrameProperties {
    private static final int[] PIECES = {1, 2, 3, 90};

    @Provide
    Arbitrary<IndicatorProfile> profiles() {
        return Arbitraries.of(Profiles.BUNDLED).map(Profiles::bundled);
    }

    private static List<Decoded> decode(IndicatorProfile profile, byte[] bytes, int piece) {
        FrameDecoder decoder = new FrameDecoder(profile);
        List<Decoded> all = new ArrayList<>();
        for (int at = 0; at < bytes.length; at += piece) {
            decoder.feed(bytes, at, Math.min(piece, bytes.length - at));
            for (Decoded d = decoder.next(); d != Decoded.NeedMore.NEED_MORE; d = decoder.next()) {
                all.add(d);
            }
        }
        decoder.giveUp("end").ifPresent(all::add);
        return all;
    }

    /** Readings that the profile can show, on its scale; every fifth with a mark. */
    private static List<Reading> readings(Scale scale, Random random, int count) {
        List<Reading> readings = new ArrayList<>();
        for (int i = 0; i < count; i++) {
            long steps = Math.round(random.nextGaussian() * 0.9 / scale.resolution());
            double power = Math.pow(10, scale.decimals());
            double shown = Math.rint(steps * scale.resolution() * power) / power;
            readings.add(new Reading(i / 64.0, scale.unit().toMm(shown) + 0.0, i % 5 == 0));
        }
        return readings;
    }

    /** Law: what the encoder sends, the decoder reads, in any unit and in pieces of any size. */
    @Property(tries = 100)
    void whatIsSentIsRead(@ForAll("profiles") IndicatorProfile profile, @ForAll long seed) {
        for (Scale scale : profile.scales()) {
            List<Reading> sent = readings(scale, new Random(seed), 20);
            FrameEncoder encoder = new FrameEncoder(profile, scale);
            ByteArrayOutputStream bytes = new ByteArrayOutputStream();
            sent.forEach(reading -> bytes.writeBytes(encoder.encode(reading)));
            for (int piece : PIECES) {
                List<Decoded> read = decode(profile, bytes.toByteArray(), piece);
                assertEquals(sent.size(), read.size());
                for (int i = 0; i < sent.size(); i++) {
                    Decoded.Value value = (Decoded.Value) read.get(i);
                    assertEquals(sent.get(i).reading_mm(), value.reading_mm());
                    assertEquals(scale, value.scale());
                    assertEquals(profile.hasMarks() && sent.get(i).mark(), value.mark());
                    if (value.time_s().isPresent()) {
                        assertEquals(OptionalDouble.of(sent.get(i).time_s()), value.time_s());
                    }
                }
            }
        }
    }

    /** Law: the pieces in which bytes come make no difference, noise or not. */
    @Property(tries = 100)
    void piecesMakeNoDifference(@ForAll("profiles") IndicatorProfile profile, @ForAll long seed) {
        Random random = new Random(seed);
        ByteArrayOutputStream bytes = new ByteArrayOutputStream();
        FrameEncoder encoder = new FrameEncoder(profile);
        for (Reading reading : readings(profile.scales().get(0), random, 10)) {
            byte[] noise = new byte[random.nextInt(4) == 0 ? random.nextInt(700) : random.nextInt(3)];
            random.nextBytes(noise);
            bytes.writeBytes(noise);
            bytes.writeBytes(encoder.encode(reading));
        }
        List<Decoded> expected = decode(profile, bytes.toByteArray(), Integer.MAX_VALUE);
        for (int piece : PIECES) {
            assertEquals(expected, decode(profile, bytes.toByteArray(), piece), "pieces of " + piece);
        }
        long taken = expected.stream().filter(Decoded.Value.class::isInstance).count();
        assertFalse(expected.isEmpty() || taken > 10);
    }

    /** Law: after noise that ends, readings are read again: at most one frame goes with it. */
    @Property(tries = 100)
    void readingsAreFoundAgainAfterNoise(
            @ForAll("profiles") IndicatorProfile profile,
            @ForAll long seed,
            @ForAll @IntRange(min = 0, max = 40) int length) {
        Random random = new Random(seed);
        byte[] noise = new byte[length];
        random.nextBytes(noise);
        ByteArrayOutputStream bytes = new ByteArrayOutputStream();
        bytes.writeBytes(noise);
        FrameEncoder encoder = new FrameEncoder(profile);
        List<Reading> sent = readings(profile.scales().get(0), random, 5);
        sent.forEach(reading -> bytes.writeBytes(encoder.encode(reading)));
        List<Double> read = decode(profile, bytes.toByteArray(), 3).stream()
                .filter(Decoded.Value.class::isInstance)
                .map(value -> ((Decoded.Value) value).reading_mm())
                .toList();
        List<Double> tail = sent.subList(1, 5).stream().map(Reading::reading_mm).toList();
        assertEquals(tail, read.subList(Math.max(0, read.size() - 4), read.size()));
    }

    /**
     * Law: a stream joined, cut or with bytes lost in mid-frame gives no value that was not sent. Profiles of text hold
     * it by their fixed widths, the others by their checksums.
     */
    @Property(tries = 300)
    void aCutFrameIsNeverAnotherReading(@ForAll("profiles") IndicatorProfile profile, @ForAll long seed) {
        Random random = new Random(seed);
        List<Reading> sent = readings(profile.scales().get(0), random, 6);
        FrameEncoder encoder = new FrameEncoder(profile);
        ByteArrayOutputStream bytes = new ByteArrayOutputStream();
        for (Reading reading : sent) {
            byte[] frame = encoder.encode(reading);
            int lost = random.nextInt(3) == 0 ? 1 + random.nextInt(3) : 0;
            int at = random.nextInt(frame.length - lost + 1);
            bytes.write(frame, 0, at);
            bytes.write(frame, at + lost, frame.length - at - lost);
        }
        for (Decoded decoded : decode(profile, bytes.toByteArray(), 2)) {
            if (decoded instanceof Decoded.Value value) {
                assertEquals(
                        1,
                        sent.stream()
                                .filter(reading -> reading.reading_mm() == value.reading_mm())
                                .limit(1)
                                .count(),
                        value + " from " + Printable.of(bytes.toByteArray(), 0, bytes.size()));
            }
        }
    }

    /** Law: by chance there is a frame in endless noise; only two in a row, or one before a pause, are readings. */
    @Property(tries = 30)
    void aFrameAloneInEndlessNoiseIsNoReading(@ForAll long seed) {
        for (String name : List.of("packed-crc-stream", "digits-sum-request", "digits-framed-stream")) {
            IndicatorProfile profile = Profiles.bundled(name);
            Reading reading =
                    readings(profile.scales().get(0), new Random(seed), 1).get(0);
            byte[] frame = new FrameEncoder(profile).encode(reading);
            byte[] noise = noise(300);
            assertEquals(1, values(profile, noise(20), frame, noise).size(), "a damaged frame hides nothing");
            assertEquals(0, values(profile, noise, frame, noise).size());
            assertEquals(2, values(profile, noise, frame, frame, noise).size());
            FrameDecoder decoder = new FrameDecoder(profile);
            decoder.feed(noise, 0, noise.length);
            decoder.feed(frame, 0, frame.length);
            while (decoder.next() != Decoded.NeedMore.NEED_MORE) {
                // Noise as far as it goes.
            }
            decoder.quiet();
            Decoded next = decoder.next();
            assertEquals(Decoded.Value.class, (next instanceof Decoded.Fault ? decoder.next() : next).getClass());
        }
    }

    private static byte[] noise(int length) {
        byte[] noise = new byte[length];
        Arrays.fill(noise, (byte) 0x5a);
        return noise;
    }

    private static List<Decoded> values(IndicatorProfile profile, byte[]... parts) {
        ByteArrayOutputStream bytes = new ByteArrayOutputStream();
        for (byte[] part : parts) {
            bytes.writeBytes(part);
        }
        return decode(profile, bytes.toByteArray(), 3).stream()
                .filter(Decoded.Value.class::isInstance)
                .toList();
    }

    /** Law: one flipped bit in a frame with a checksum is always found. */
    @Property(tries = 100)
    void aFlippedBitIsFoundByEveryChecksum(@ForAll long seed) {
        for (String name :
                List.of("text-check-button", "packed-crc-stream", "digits-sum-request", "digits-framed-stream")) {
            IndicatorProfile profile = Profiles.bundled(name);
            Reading reading =
                    readings(profile.scales().get(0), new Random(seed), 1).get(0);
            byte[] good = new FrameEncoder(profile).encode(reading);
            for (int bit = 0; bit < 8 * good.length; bit++) {
                byte[] bad = good.clone();
                bad[bit / 8] ^= (byte) (1 << bit % 8);
                for (Decoded decoded : decode(profile, bad, 90)) {
                    assertFalse(decoded instanceof Decoded.Value, name + " bit " + bit + ": " + decoded);
                }
            }
        }
    }

    /** Law: nothing that comes, be it ever so long, makes the decoder hold more than a line and a read. */
    @Property(tries = 30)
    void noiseOfAnyKindIsGivenUpInPieces(@ForAll("profiles") IndicatorProfile profile, @ForAll long seed) {
        Random random = new Random(seed);
        byte[] noise = new byte[10_000];
        random.nextBytes(noise);
        if (seed % 2 == 0) {
            byte[] fills = "x\u0002\u00a5\u00c3+".getBytes(StandardCharsets.ISO_8859_1);
            Arrays.fill(noise, fills[random.nextInt(fills.length)]);
        }
        long told = decode(profile, noise, 90).stream()
                .filter(Decoded.Fault.class::isInstance)
                .count();
        assertFalse(told < 10_000 / 300, "only " + told);
    }
}

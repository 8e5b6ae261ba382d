package sweepbook.acquisition.wire;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.ByteArrayOutputStream;
import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import java.util.Set;
import java.util.TreeSet;
import net.jqwik.api.Arbitraries;
import net.jqwik.api.Arbitrary;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.Provide;
import sweepbook.acquisition.link.Uart;
import sweepbook.acquisition.trace.Reading;
import sweepbook.acquisition.wire.LineSettings.Parity;

/** Laws of a line that is set otherwise than the indicator's. */
class WrongLineProperties {
    @Provide
    Arbitrary<IndicatorProfile> profiles() {
        return Arbitraries.of(Profiles.BUNDLED).map(Profiles::bundled);
    }

    /** Law: whatever the line is set to, no reading comes out that was not sent; at the right settings all come. */
    @Property(tries = 200)
    void noReadingComesOutThatWasNotSent(@ForAll("profiles") IndicatorProfile profile, @ForAll long seed) {
        Random random = new Random(seed);
        FrameEncoder encoder = new FrameEncoder(profile);
        ByteArrayOutputStream bytes = new ByteArrayOutputStream();
        Set<Double> sent = new TreeSet<>();
        for (int i = 0; i < 30; i++) {
            double mm = Math.rint(random.nextGaussian() * 2000) / 1000;
            byte[] frame = encoder.encode(new Reading(i / 32.0, mm));
            bytes.writeBytes(frame);
            sent.addAll(values(profile, frame));
        }
        LineSettings right = profile.line();
        assertEquals(
                values(profile, bytes.toByteArray()),
                values(profile, Uart.heard(bytes.toByteArray(), right, right, random)));
        double[] factors = {0.25, 0.5, 0.75, 1, 1, 4 / 3.0, 2, 4};
        LineSettings wrong = new LineSettings(
                (int) Math.round(right.speed_baud() * factors[random.nextInt(factors.length)]),
                7 + random.nextInt(2),
                Parity.values()[random.nextInt(3)],
                right.stopBits(),
                true,
                true);
        List<Double> read = values(profile, Uart.heard(bytes.toByteArray(), right, wrong, random));
        assertTrue(sent.containsAll(read), "seed " + seed + ", " + profile.name() + " at " + wrong + ": " + read);
    }

    private static List<Double> values(IndicatorProfile profile, byte[] bytes) {
        FrameDecoder decoder = new FrameDecoder(profile);
        decoder.feed(bytes, 0, bytes.length);
        List<Double> values = new ArrayList<>();
        for (Decoded d = decoder.next(); d != Decoded.NeedMore.NEED_MORE; d = decoder.next()) {
            if (d instanceof Decoded.Value value) {
                values.add(value.value());
            }
        }
        return values;
    }
}

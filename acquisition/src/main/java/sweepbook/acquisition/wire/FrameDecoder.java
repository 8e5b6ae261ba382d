package sweepbook.acquisition.wire;

import java.util.Arrays;
import java.util.Optional;
import java.util.OptionalDouble;

/**
 * Turns the bytes of an indicator into values: feed bytes in pieces of any size, then ask {@link #next} until it needs
 * more. The pieces make no difference to what comes out. What does not fit the profile comes out as a fault, never as a
 * value. Used by one thread.
 */
public final class FrameDecoder {
    /** Bytes of noise that make one fault: about a hundred frames' worth would tell a person no more. */
    private static final int LONGEST_NOISE = 256;

    /** What a fault shows of its bytes. */
    private static final int LONGEST_EXCERPT = 40;

    private final IndicatorProfile profile;
    private byte[] buffer = new byte[1024];
    private int from;
    private int to;
    private long offset;
    private FrameFormat.Front front;
    private int noise;
    private int noiseInARow;
    private String whyNoise = "";

    public FrameDecoder(IndicatorProfile profile) {
        this.profile = profile;
        this.front = anew();
    }

    /** An answer begins where it was asked for; a stream may be joined in mid-frame. */
    private FrameFormat.Front anew() {
        return profile.request().isPresent() ? FrameFormat.Front.FRAME_BEGINS : FrameFormat.Front.UNKNOWN;
    }

    /** Takes the bytes; they are copied. */
    public void feed(byte[] bytes, int start, int length) {
        if (to + length > buffer.length) {
            System.arraycopy(buffer, from, buffer, 0, to - from);
            to -= from;
            from = 0;
            if (to + length > buffer.length) {
                buffer = Arrays.copyOf(buffer, Math.max(2 * buffer.length, to + length));
            }
        }
        System.arraycopy(bytes, start, buffer, to, length);
        to += length;
    }

    /** What stands at the front of the bytes not yet decoded. */
    public Decoded next() {
        while (true) {
            if (noise >= LONGEST_NOISE) {
                return noise(LONGEST_NOISE);
            }
            if (from + noise == to) {
                return Decoded.NeedMore.NEED_MORE;
            }
            FrameFormat.Scan scan = profile.format().scan(buffer, from + noise, to, front);
            if (scan instanceof FrameFormat.Scan.NeedMore) {
                return Decoded.NeedMore.NEED_MORE;
            }
            if (scan instanceof FrameFormat.Scan.Noise more) {
                noise += more.length();
                noiseInARow = Math.min(noiseInARow + more.length(), LONGEST_NOISE);
                whyNoise = more.why();
                boolean astray = more.next() == FrameFormat.Front.UNKNOWN && noiseInARow == LONGEST_NOISE;
                front = astray ? FrameFormat.Front.ASTRAY : more.next();
                if (!more.mayGoOn()) {
                    return noise(noise);
                }
            } else if (noise > 0) {
                return noise(noise);
            } else {
                front = FrameFormat.Front.FRAME_BEGINS;
                noiseInARow = 0;
                FrameFormat.Scan.Frame frame = (FrameFormat.Scan.Frame) scan;
                String channel = frame.content().channel();
                return profile.takes(channel)
                        ? decoded(frame)
                        : new Decoded.OtherChannel(taken(frame.length()), channel);
            }
        }
    }

    private Decoded decoded(FrameFormat.Scan.Frame frame) {
        if (frame.content() instanceof FrameFormat.Content.Word word) {
            IndicatorStatus status = profile.statusWords().get(word.word());
            return status == null
                    ? fault(frame.length(), "the status word '" + word.word() + "' is not in the profile")
                    : new Decoded.StatusWord(taken(frame.length()), status, word.word());
        }
        FrameFormat.Content.Number number = (FrameFormat.Content.Number) frame.content();
        Optional<Scale> scale = profile.scaleOf(number.unitWord());
        if (scale.isEmpty()) {
            return fault(frame.length(), "the unit '" + number.unitWord() + "' is not in the profile");
        }
        OptionalDouble time_s =
                Double.isNaN(number.time_s()) ? OptionalDouble.empty() : OptionalDouble.of(number.time_s());
        return new Decoded.Value(taken(frame.length()), scale.get(), number.value(), number.mark(), time_s);
    }

    /** Nothing came for a while: what stands at the end cannot be part of endless noise. */
    public void quiet() {
        noiseInARow = 0;
        if (front == FrameFormat.Front.ASTRAY) {
            front = FrameFormat.Front.UNKNOWN;
        }
    }

    /** The bytes of a frame that has not come to its end, printable and cut short. */
    public Optional<String> unfinished() {
        return from == to ? Optional.empty() : Optional.of(excerpt(to - from));
    }

    /** Gives up the bytes of an unfinished frame: the link was lost, or an answer did not come in time. */
    public Optional<Decoded.Fault> giveUp(String why) {
        front = anew();
        noise = 0;
        noiseInARow = 0;
        return from == to ? Optional.empty() : Optional.of(fault(to - from, why));
    }

    private Decoded.Fault noise(int length) {
        noise -= length;
        return fault(length, whyNoise);
    }

    private Decoded.Fault fault(int length, String why) {
        String excerpt = excerpt(length);
        return new Decoded.Fault(taken(length), excerpt, why);
    }

    private String excerpt(int length) {
        return Printable.of(buffer, from, Math.min(length, LONGEST_EXCERPT)) + (length > LONGEST_EXCERPT ? "..." : "");
    }

    private long taken(int length) {
        long start = offset;
        from += length;
        offset += length;
        return start;
    }
}

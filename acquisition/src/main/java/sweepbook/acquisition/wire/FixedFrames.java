package sweepbook.acquisition.wire;

import java.util.Arrays;
import java.util.List;
import java.util.Optional;

/**
 * Frames of a fixed number of bytes with the digits of the reading at fixed places.
 *
 * @param start bytes with which every frame begins; maybe none
 * @param end bytes with which every frame ends; maybe none
 * @param decimals places behind the point where {@code point} is empty
 * @param point holds the number of places behind the point
 * @param sign 1 where the reading is negative
 * @param unit its number is the unit's word in the profile
 * @param mark 1 where a witness mark passes
 * @param status its number is a status word of the profile, 0 where all is well
 * @param channel its number is the channel's address
 * @param fixedBits bits that are the same in every frame
 */
record FixedFrames(
        int length,
        byte[] start,
        byte[] end,
        DigitField digits,
        int decimals,
        Optional<BitField> point,
        Optional<BitField> sign,
        Optional<BitField> unit,
        Optional<BitField> mark,
        Optional<BitField> status,
        Optional<BitField> channel,
        List<FixedBits> fixedBits,
        Optional<Check> check)
        implements FrameFormat {
    /** Longer frames hold more than one reading. */
    static final int LONGEST = 64;

    /** Bits of which the value never changes. */
    record FixedBits(BitField field, int value) {}

    /**
     * A checksum in a frame.
     *
     * @param from the first byte it covers
     * @param to behind the last byte it covers
     * @param at its own first byte
     */
    record Check(Checksum checksum, int from, int to, int at, boolean leastFirst) {
        boolean holds(byte[] bytes, int frame) {
            long found = 0;
            for (int i = 0; i < checksum.bytes(); i++) {
                found = found << 8 | bytes[frame + byteOf(i)] & 0xff;
            }
            return found == checksum.of(bytes, frame + from, frame + to);
        }

        void set(byte[] frame) {
            long value = checksum.of(frame, from, to);
            for (int i = 0; i < checksum.bytes(); i++) {
                frame[byteOf(i)] = (byte) (value >> 8 * (checksum.bytes() - 1 - i));
            }
        }

        private int byteOf(int fromMost) {
            return at + (leastFirst ? checksum.bytes() - 1 - fromMost : fromMost);
        }
    }

    @Override
    public boolean isChecked() {
        return check.isPresent();
    }

    @Override
    public boolean hasChannels() {
        return channel.isPresent();
    }

    @Override
    public boolean hasMarks() {
        return mark.isPresent();
    }

    @Override
    public Scan scan(byte[] bytes, int from, int to, Front front) {
        // By chance noise has a frame in it now and then, hardly ever two of them one behind the other.
        int believed = front == Front.ASTRAY ? 2 : 1;
        int at = from;
        while (at < to && !couldBegin(bytes, at, to, believed)) {
            at++;
        }
        if (at > from) {
            return new Scan.Noise(at - from, "no frame begins here", true, Front.UNKNOWN);
        }
        return to - from < believed * length ? Scan.NeedMore.NEED_MORE : new Scan.Frame(length, content(bytes, from));
    }

    /** Whether nothing there so far speaks against so many frames in a row. */
    private boolean couldBegin(byte[] bytes, int at, int to, int frames) {
        for (int i = 0; i < frames && at + i * length < to; i++) {
            if (!couldBegin(bytes, at + i * length, to)) {
                return false;
            }
        }
        return true;
    }

    /** Whether nothing there so far speaks against a frame. */
    private boolean couldBegin(byte[] bytes, int at, int to) {
        int there = Math.min(start.length, to - at);
        if (!Arrays.equals(bytes, at, at + there, start, 0, there)) {
            return false;
        }
        if (to - at < length) {
            return true;
        }
        return Arrays.equals(bytes, at + length - end.length, at + length, end, 0, end.length)
                && digits.get(bytes, at) >= 0
                && get(point, bytes, at) <= DigitField.MOST
                && get(sign, bytes, at) <= 1
                && get(mark, bytes, at) <= 1
                && fixedBits.stream().allMatch(bits -> bits.field().get(bytes, at) == bits.value())
                && check.map(c -> c.holds(bytes, at)).orElse(true);
    }

    private Content content(byte[] bytes, int frame) {
        int state = get(status, bytes, frame);
        if (state != 0) {
            return new Content.Word(Integer.toString(state), word(channel, bytes, frame));
        }
        int places = point.isPresent() ? get(point, bytes, frame) : decimals;
        double magnitude = digits.get(bytes, frame) / Math.pow(10, places);
        return new Content.Number(
                get(sign, bytes, frame) == 1 ? -magnitude : magnitude,
                word(unit, bytes, frame),
                get(mark, bytes, frame) == 1,
                Double.NaN,
                word(channel, bytes, frame));
    }

    private static int get(Optional<BitField> field, byte[] bytes, int frame) {
        return field.map(f -> f.get(bytes, frame)).orElse(0);
    }

    private static String word(Optional<BitField> field, byte[] bytes, int frame) {
        return field.map(f -> Integer.toString(f.get(bytes, frame))).orElse("");
    }

    @Override
    public byte[] print(Content content, Scale scale) {
        byte[] frame = new byte[length];
        if (digits.packing() == DigitField.Packing.ASCII) {
            digits.set(frame, 0);
        }
        fixedBits.forEach(bits -> bits.field().set(frame, bits.value()));
        int places = point.isPresent() ? scale.decimals() : decimals;
        point.ifPresent(field -> field.set(frame, places));
        if (content instanceof Content.Number number) {
            digits.set(frame, counts(number.value(), places));
            sign.ifPresent(field -> field.set(frame, number.value() < 0 ? 1 : 0));
            unit.ifPresent(field ->
                    field.set(frame, scale.word().map(Integer::parseInt).orElse(0)));
            mark.ifPresent(field -> field.set(frame, number.mark() ? 1 : 0));
        } else {
            status.orElseThrow().set(frame, Integer.parseInt(((Content.Word) content).word()));
        }
        channel.ifPresent(field -> field.set(frame, Integer.parseInt(content.channel())));
        System.arraycopy(start, 0, frame, 0, start.length);
        System.arraycopy(end, 0, frame, length - end.length, end.length);
        check.ifPresent(c -> c.set(frame));
        return frame;
    }

    private long counts(double value, int places) {
        long counts = Math.round(Math.abs(value) * Math.pow(10, places));
        if (counts >= Math.round(Math.pow(10, digits.count()))) {
            throw new IllegalArgumentException(value + " does not fit into " + digits.count() + " digits");
        }
        return counts;
    }
}

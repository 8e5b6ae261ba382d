package sweepbook.acquisition.wire;

import java.util.OptionalDouble;

/** What the decoder makes of the bytes so far; offsets count bytes from the first that was ever fed. */
public sealed interface Decoded {
    /** The bytes so far end within a frame, or there are none. */
    enum NeedMore implements Decoded {
        NEED_MORE
    }

    /**
     * A value.
     *
     * @param offset of the frame's first byte
     * @param scale the unit in which it was sent
     * @param value in the unit of the scale
     * @param time_s the device's own time stamp; empty where frames carry none
     */
    record Value(long offset, Scale scale, double value, boolean mark, OptionalDouble time_s) implements Decoded {
        public double reading_mm() {
            return scale.unit().toMm(value);
        }
    }

    /** A word that stands in place of a value. */
    record StatusWord(long offset, IndicatorStatus status, String word) implements Decoded {}

    /** A frame of another indicator on the same wire. */
    record OtherChannel(long offset, String channel) implements Decoded {}

    /**
     * Bytes that are no frame; they are dropped.
     *
     * @param offset of the first of them
     * @param excerpt the bytes themselves, printable and cut short
     */
    record Fault(long offset, String excerpt, String why) implements Decoded {}
}

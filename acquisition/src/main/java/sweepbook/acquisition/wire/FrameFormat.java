package sweepbook.acquisition.wire;

/** How frames stand in the stream of bytes, and how a value stands in a frame. Immutable. */
sealed interface FrameFormat permits TextLines, FixedFrames {
    /** Looks for a frame at the front of the bytes, which are at least one. */
    Scan scan(byte[] bytes, int from, int to, Front front);

    /** The bytes of a frame that carries this content. */
    byte[] print(Content content, Scale scale);

    /** Whether frames say if a witness mark passes. */
    boolean hasMarks();

    /** Whether frames say of which indicator they are. */
    boolean hasChannels();

    /** Whether frames carry a checksum. */
    boolean isChecked();

    /** What is known of the place where a scan begins. */
    enum Front {
        /** A frame has just ended, or an answer begins. */
        FRAME_BEGINS,
        /** The stream was joined just now, maybe in mid-frame. */
        UNKNOWN,
        /** There has been nothing but noise for long: sooner or later some of it passes for a frame. */
        ASTRAY,
        /** Within a line that was too long: what follows is its rest. */
        REST_OF_NOISE
    }

    /** What stands at the front of the bytes. */
    sealed interface Scan {
        enum NeedMore implements Scan {
            NEED_MORE
        }

        /** A frame of so many bytes, terminator and all. */
        record Frame(int length, Content content) implements Scan {}

        /** So many bytes that are no frame; whether more of the same may follow; what stands behind them. */
        record Noise(int length, String why, boolean mayGoOn, Front next) implements Scan {}
    }

    /** What a frame carries; an empty channel where frames have no address. */
    sealed interface Content {
        String channel();

        /** A value in the unit that the unit word names; empty words and a time of NaN where the frame has none. */
        record Number(double value, String unitWord, boolean mark, double time_s, String channel) implements Content {}

        record Word(String word, String channel) implements Content {}
    }
}

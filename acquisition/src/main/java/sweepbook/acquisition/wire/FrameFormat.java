package sweepbook.acquisition.wire;

/** How frames stand in the stream of bytes, and how a value stands in a frame. Immutable. */
sealed interface FrameFormat permits TextLines {
    /**
     * Looks for a frame at the front of the bytes.
     *
     * @param first whether a frame may already have begun before the first of these bytes
     */
    Scan scan(byte[] bytes, int from, int to, boolean first);

    /** Whether frames say if a witness mark passes. */
    boolean hasMarks();

    /** The bytes of a frame that carries this content. */
    byte[] print(Content content, Scale scale);

    /** What stands at the front of the bytes. */
    sealed interface Scan {
        enum NeedMore implements Scan {
            NEED_MORE
        }

        /** A frame of so many bytes, terminator and all. */
        record Frame(int length, Content content) implements Scan {}

        /** So many bytes that are no frame. */
        record Noise(int length, String why) implements Scan {}
    }

    /** What a frame carries. */
    sealed interface Content {
        /** A value in the unit that the unit word names; empty words and times where the frame has none. */
        record Number(double value, String unitWord, boolean mark, double time_s) implements Content {}

        record Word(String word) implements Content {}
    }
}

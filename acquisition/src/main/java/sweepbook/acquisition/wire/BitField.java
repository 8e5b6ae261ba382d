package sweepbook.acquisition.wire;

/** Some bits of one byte of a frame, as a number. */
record BitField(int at, int mask) {
    int get(byte[] bytes, int frame) {
        return (bytes[frame + at] & mask) >> Integer.numberOfTrailingZeros(mask);
    }

    void set(byte[] frame, int value) {
        int bits = value << Integer.numberOfTrailingZeros(mask) & mask;
        frame[at] = (byte) (frame[at] & ~mask | bits);
    }

    /** The greatest number that fits. */
    int greatest() {
        return mask >> Integer.numberOfTrailingZeros(mask);
    }

    boolean overlaps(BitField other) {
        return at == other.at && (mask & other.mask) != 0;
    }
}

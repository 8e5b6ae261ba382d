package sweepbook.acquisition.wire;

/**
 * Decimal digits in a frame.
 *
 * @param at the first of their bytes
 * @param count how many digits
 * @param leastFirst whether the digit of least worth comes first
 */
record DigitField(int at, int count, Packing packing, boolean leastFirst) {
    /** More digits than any display has; they fit into a long. */
    static final int MOST = 15;

    enum Packing {
        /** Two digits a byte, the one of greater worth in the upper half whatever the order of the bytes. */
        NIBBLES,
        /** One digit a byte, as its number. */
        BYTES,
        /** One digit a byte, as its character. */
        ASCII
    }

    int bytes() {
        return packing == Packing.NIBBLES ? (count + 1) / 2 : count;
    }

    /** The digits as a whole number, -1 where a byte holds none. */
    long get(byte[] bytes, int frame) {
        long number = 0;
        for (int worth = digitsHeld() - 1; worth >= 0; worth--) {
            int digit = digit(bytes[frame + byteOf(worth)] & 0xff, worth);
            if (digit < 0 || digit > 9) {
                return -1;
            }
            number = 10 * number + digit;
        }
        return number;
    }

    void set(byte[] frame, long number) {
        long rest = number;
        for (int worth = 0; worth < digitsHeld(); worth++) {
            int digit = (int) (rest % 10);
            rest /= 10;
            int at = byteOf(worth);
            frame[at] = switch (packing) {
                case NIBBLES -> (byte) (frame[at] & (worth % 2 == 0 ? 0xf0 : 0x0f) | digit << (worth % 2 == 0 ? 0 : 4));
                case BYTES -> (byte) digit;
                case ASCII -> (byte) ('0' + digit);
            };
        }
    }

    /** Whole bytes: an odd number of nibbles has a zero in front. */
    private int digitsHeld() {
        return packing == Packing.NIBBLES ? 2 * bytes() : count;
    }

    private int byteOf(int worth) {
        int fromLeast = packing == Packing.NIBBLES ? worth / 2 : worth;
        return at + (leastFirst ? fromLeast : bytes() - 1 - fromLeast);
    }

    private int digit(int b, int worth) {
        return switch (packing) {
            case NIBBLES -> worth % 2 == 0 ? b & 0x0f : b >> 4;
            case BYTES -> b;
            case ASCII -> b - '0';
        };
    }
}

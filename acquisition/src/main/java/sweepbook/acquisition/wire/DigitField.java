package sweepbook.acquisition.wire;

import java.util.Optional;

/**
 * Decimal digits in a frame.
 *
 * @param at the first of their bytes
 * @param count how many digits
 * @param leastFirst whether the digit of least worth comes first
 * @param spareLow of an odd number of nibbles: whether the one that is no digit is below the digit of least worth, not
 *     above that of greatest
 */
record DigitField(int at, int count, Packing packing, boolean leastFirst, boolean spareLow) {
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

    /** The nibble that is no digit, where there is one. */
    Optional<BitField> spare() {
        if (packing != Packing.NIBBLES || count % 2 == 0) {
            return Optional.empty();
        }
        int place = spareLow ? 0 : count;
        return Optional.of(new BitField(byteOf(place / 2), place % 2 == 0 ? 0x0f : 0xf0));
    }

    /** The digits as a whole number, -1 where a byte holds none. */
    long get(byte[] bytes, int frame) {
        long number = 0;
        for (int worth = count - 1; worth >= 0; worth--) {
            int digit = digit(bytes, frame, worth);
            if (digit < 0 || digit > 9) {
                return -1;
            }
            number = 10 * number + digit;
        }
        return number;
    }

    void set(byte[] frame, long number) {
        long rest = number;
        for (int worth = 0; worth < count; worth++) {
            int digit = (int) (rest % 10);
            rest /= 10;
            if (packing == Packing.NIBBLES) {
                nibble(worth).set(frame, digit);
            } else {
                frame[byteOf(worth)] = (byte) (packing == Packing.ASCII ? '0' + digit : digit);
            }
        }
    }

    private int digit(byte[] bytes, int frame, int worth) {
        return switch (packing) {
            case NIBBLES -> nibble(worth).get(bytes, frame);
            case BYTES -> bytes[frame + byteOf(worth)];
            case ASCII -> bytes[frame + byteOf(worth)] - '0';
        };
    }

    private BitField nibble(int worth) {
        int place = worth + (spareLow && count % 2 == 1 ? 1 : 0);
        return new BitField(byteOf(place / 2), place % 2 == 0 ? 0x0f : 0xf0);
    }

    private int byteOf(int fromLeast) {
        return at + (leastFirst ? fromLeast : bytes() - 1 - fromLeast);
    }
}

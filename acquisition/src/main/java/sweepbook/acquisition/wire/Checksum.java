package sweepbook.acquisition.wire;

import java.nio.charset.StandardCharsets;

/**
 * A number over bytes by which a receiver tells that they were not damaged.
 *
 * @param bits its width: 8, 16 or 32
 * @param polynomial of a CRC, without its highest term and not reflected; unused by the other kinds
 * @param initial the register before the first byte
 * @param reflectIn whether bytes enter lowest bit first
 * @param reflectOut whether the register is reflected at the end
 * @param xorOut what the result is combined with
 */
record Checksum(
        Kind kind, int bits, long polynomial, long initial, boolean reflectIn, boolean reflectOut, long xorOut) {
    /** The text over which catalogues of checksums give their check values. */
    private static final byte[] CHECKED = "123456789".getBytes(StandardCharsets.US_ASCII);

    enum Kind {
        /** All bytes added. */
        SUM,
        /** All bytes combined by exclusive or. */
        XOR,
        /** Remainder of a division by a polynomial over GF(2). */
        CRC
    }

    /** The value for "123456789", by which the catalogues identify a checksum. */
    long check() {
        return of(CHECKED, 0, CHECKED.length);
    }

    long of(byte[] bytes, int from, int to) {
        long register = initial;
        for (int i = from; i < to; i++) {
            register = next(register, bytes[i] & 0xff);
        }
        if (kind == Kind.CRC && reflectOut) {
            register = reflect(register, bits);
        }
        return (register ^ xorOut) & mask();
    }

    private long next(long register, int b) {
        return switch (kind) {
            case SUM -> register + b;
            case XOR -> register ^ b;
            case CRC -> divide(register ^ (reflectIn ? reflect(b, 8) : b) << (bits - 8));
        };
    }

    /** Shifts eight bits out at the top. */
    private long divide(long register) {
        long top = 1L << (bits - 1);
        long r = register;
        for (int i = 0; i < 8; i++) {
            r = (r & top) != 0 ? r << 1 ^ polynomial : r << 1;
        }
        return r & mask();
    }

    private static long reflect(long value, int bits) {
        return Long.reverse(value) >>> (64 - bits);
    }

    private long mask() {
        return (1L << bits) - 1;
    }

    int bytes() {
        return bits / 8;
    }
}

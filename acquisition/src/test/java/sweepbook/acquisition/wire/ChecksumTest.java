package sweepbook.acquisition.wire;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.nio.charset.StandardCharsets;
import java.util.Random;
import java.util.zip.CRC32;
import java.util.zip.CRC32C;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class ChecksumTest {
    private static final Checksum CRC_32 =
            new Checksum(Checksum.Kind.CRC, 32, 0x04c11db7L, 0xffffffffL, true, true, 0xffffffffL);
    private static final Checksum CRC_32C =
            new Checksum(Checksum.Kind.CRC, 32, 0x1edc6f41L, 0xffffffffL, true, true, 0xffffffffL);

    /**
     * Published: check values for "123456789" in G. Cook's Catalogue of parametrised CRC algorithms, quoted from memory;
     * those of 32 bits are held against the platform's own below.
     */
    @ParameterizedTest(name = "{0}")
    @CsvSource({
        "CRC-8/SMBUS,        8,  07,       00,       false, false, 00,       f4",
        "CRC-8/MAXIM-DOW,    8,  31,       00,       true,  true,  00,       a1",
        "CRC-8/I-432-1,      8,  07,       00,       false, false, 55,       a1",
        "CRC-16/ARC,         16, 8005,     0000,     true,  true,  0000,     bb3d",
        "CRC-16/MODBUS,      16, 8005,     ffff,     true,  true,  0000,     4b37",
        "CRC-16/USB,         16, 8005,     ffff,     true,  true,  ffff,     b4c8",
        "CRC-16/XMODEM,      16, 1021,     0000,     false, false, 0000,     31c3",
        "CRC-16/IBM-3740,    16, 1021,     ffff,     false, false, 0000,     29b1",
        "CRC-16/KERMIT,      16, 1021,     0000,     true,  true,  0000,     2189",
        "CRC-16/IBM-SDLC,    16, 1021,     ffff,     true,  true,  ffff,     906e",
        "CRC-32/ISO-HDLC,    32, 04c11db7, ffffffff, true,  true,  ffffffff, cbf43926",
        "CRC-32/MPEG-2,      32, 04c11db7, ffffffff, false, false, 00000000, 0376e6e7"
    })
    void catalogueCheckValuesAreMet(
            String name,
            int bits,
            String polynomial,
            String initial,
            boolean reflectIn,
            boolean reflectOut,
            String xorOut,
            String check) {
        Checksum crc = new Checksum(
                Checksum.Kind.CRC,
                bits,
                Long.parseLong(polynomial, 16),
                Long.parseLong(initial, 16),
                reflectIn,
                reflectOut,
                Long.parseLong(xorOut, 16));
        assertEquals(
                check, Long.toHexString(crc.check() | 1L << bits).substring(1).formatted(), name);
    }

    /** Published: the CRC-32 and CRC-32C of the Java platform (java.util.zip). */
    @Test
    void thePlatformsOwnChecksumsAgreeOnRandomBytes() {
        long seed = new Random().nextLong();
        Random random = new Random(seed);
        for (int i = 0; i < 200; i++) {
            byte[] bytes = new byte[random.nextInt(64)];
            random.nextBytes(bytes);
            CRC32 crc32 = new CRC32();
            crc32.update(bytes);
            CRC32C crc32c = new CRC32C();
            crc32c.update(bytes);
            assertEquals(crc32.getValue(), CRC_32.of(bytes, 0, bytes.length), "seed " + seed);
            assertEquals(crc32c.getValue(), CRC_32C.of(bytes, 0, bytes.length), "seed " + seed);
        }
    }

    /** Law: sums and exclusive ors by their definition; 1..9 as characters add up to 477. */
    @Test
    void sumsAndExclusiveOrsAreWhatTheirNameSays() {
        assertEquals(477 - 256, new Checksum(Checksum.Kind.SUM, 8, 0, 0, false, false, 0).check());
        assertEquals(477, new Checksum(Checksum.Kind.SUM, 16, 0, 0, false, false, 0).check());
        assertEquals('1', new Checksum(Checksum.Kind.XOR, 8, 0, 0, false, false, 0).check());
        byte[] two = "AB".getBytes(StandardCharsets.US_ASCII);
        assertEquals(3, new Checksum(Checksum.Kind.XOR, 8, 0, 0, false, false, 0).of(two, 0, 2));
        assertEquals(3 ^ 0xff, new Checksum(Checksum.Kind.XOR, 8, 0, 0, false, false, 0xff).of(two, 0, 2));
    }
}

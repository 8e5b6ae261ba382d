package sweepbook.acquisition.wire;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.io.ByteArrayOutputStream;
import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import sweepbook.acquisition.trace.Reading;

/** Laws of frames of fixed length, on profiles drawn by lot. */
class FixedFrameProperties {
    private static final ObjectMapper MAPPER = new ObjectMapper();

    private final List<String> crcs = List.of(
            // Width, polynomial, initial, reflected in and out, xor out, check: as in ChecksumTest.
            "8 07 00 false 00 f4",
            "8 31 00 true 00 a1",
            "16 8005 ffff true 0000 4b37",
            "16 1021 ffff false 0000 29b1",
            "32 04c11db7 ffffffff true ffffffff cbf43926");

    /** A frame: start, flags, digits, maybe a byte that never changes, maybe a check, end. */
    private IndicatorProfile drawnBy(Random random, int decimals, int count) throws Exception {
        ObjectNode root = MAPPER.createObjectNode().put("name", "drawn").put("description", "drawn by lot");
        root.putObject("line")
                .put("speed_baud", 9600)
                .put("dataBits", 8)
                .put("parity", "none")
                .put("stopBits", 1)
                .put("dtr", true)
                .put("rts", true);
        ObjectNode fixed = root.putObject("fixed");
        boolean checked = random.nextInt(4) > 0;
        int starts = checked ? random.nextInt(3) : 1 + random.nextInt(2);
        int ends = checked ? random.nextInt(2) : 1 + random.nextInt(2);
        fixed.put("start", "c5".repeat(starts)).put("end", "9a".repeat(ends));
        int at = starts;
        bits(fixed, "sign", at, 0x01);
        boolean point = random.nextBoolean();
        if (point) {
            bits(fixed, "point", at, 0x0e);
        } else {
            fixed.put("decimals", decimals);
        }
        bits(fixed, "mark", at, 0x10);
        bits(fixed, "unit", at, 0x20);
        at++;
        String packing = List.of("nibbles", "bytes", "ascii").get(random.nextInt(3));
        ObjectNode digits = fixed.putObject("digits")
                .put("byte", at)
                .put("count", count)
                .put("packing", packing)
                .put("order", random.nextBoolean() ? "most-first" : "least-first");
        if (random.nextBoolean()) {
            digits.put("spareNibble", random.nextBoolean() ? "low" : "high");
        }
        at += packing.equals("nibbles") ? (count + 1) / 2 : count;
        var fixedBits = fixed.putArray("fixedBits");
        fixedBits.addObject().put("byte", starts).put("mask", "c0").put("value", random.nextInt(4));
        if (random.nextBoolean()) {
            fixedBits.addObject().put("byte", at).put("mask", "ff").put("value", random.nextInt(256));
            at++;
        }
        if (checked) {
            at += check(fixed.putObject("check"), at, random);
        }
        fixed.put("length", at + ends);
        var units = root.putArray("units");
        units.addObject()
                .put("unit", "mm")
                .put("resolution", Math.pow(10, -decimals))
                .put("word", "0");
        return Profiles.parse("drawn.json", root.toString());
    }

    private static void bits(ObjectNode fixed, String name, int at, int mask) {
        fixed.putObject(name).put("byte", at).put("mask", String.format("%02x", mask));
    }

    /** A checksum over everything ahead; how many bytes it takes. */
    private int check(ObjectNode check, int at, Random random) {
        int kind = random.nextInt(4);
        ObjectNode checksum = check.putObject("checksum");
        int bits;
        if (kind < 2) {
            bits = kind == 0 ? 8 : 8 << random.nextInt(2);
            checksum.put("kind", kind == 0 ? "xor" : "sum").put("bits", bits).put("initial", "5a");
        } else {
            String[] crc = crcs.get(random.nextInt(crcs.size())).split(" ");
            bits = Integer.parseInt(crc[0]);
            checksum.put("kind", "crc")
                    .put("bits", bits)
                    .put("polynomial", crc[1])
                    .put("initial", crc[2]);
            checksum.put("reflectIn", crc[3].equals("true")).put("reflectOut", crc[3].equals("true"));
            checksum.put("xorOut", crc[4]).put("check", crc[5]);
        }
        check.put("from", 0).put("to", at).put("byte", at);
        if (bits > 8) {
            check.put("order", random.nextBoolean() ? "most-first" : "least-first");
        }
        return bits / 8;
    }

    private static List<Decoded.Value> decode(IndicatorProfile profile, byte[] bytes, int piece) {
        FrameDecoder decoder = new FrameDecoder(profile);
        List<Decoded.Value> values = new ArrayList<>();
        for (int at = 0; at < bytes.length; at += piece) {
            decoder.feed(bytes, at, Math.min(piece, bytes.length - at));
            for (Decoded d = decoder.next(); d != Decoded.NeedMore.NEED_MORE; d = decoder.next()) {
                if (d instanceof Decoded.Value value) {
                    values.add(value);
                }
            }
        }
        return values;
    }

    /** Law: what is sent is read, whatever the order, packing, places and check. */
    @Property(tries = 300)
    void whatIsSentIsRead(@ForAll long seed) throws Exception {
        Random random = new Random(seed);
        int count = 3 + random.nextInt(7);
        int decimals = random.nextInt(Math.min(count, 6));
        IndicatorProfile profile = drawnBy(random, decimals, count);
        FrameEncoder encoder = new FrameEncoder(profile);
        ByteArrayOutputStream bytes = new ByteArrayOutputStream();
        List<Double> sent = new ArrayList<>();
        for (int i = 0; i < 20; i++) {
            long counts = Math.floorMod(random.nextLong(), Math.round(Math.pow(10, count)));
            double value = (random.nextBoolean() ? 1 : -1) * (counts / Math.pow(10, decimals)) + 0.0;
            sent.add(value);
            bytes.writeBytes(encoder.encode(new Reading(0, value, i % 3 == 0)));
        }
        for (int piece : new int[] {1, 3, 90}) {
            List<Decoded.Value> read = decode(profile, bytes.toByteArray(), piece);
            assertEquals(sent, read.stream().map(v -> v.value() + 0.0).toList(), "seed " + seed);
            assertTrue(read.get(0).mark() && !read.get(1).mark(), "seed " + seed);
        }
    }

    /** Law: one flipped bit in a frame with a check, or in bits that never change, gives no reading. */
    @Property(tries = 100)
    void aFlippedBitGivesNoReading(@ForAll long seed) throws Exception {
        Random random = new Random(seed);
        IndicatorProfile profile = drawnBy(random, 2, 5);
        byte[] good = new FrameEncoder(profile).encode(new Reading(0, random.nextInt(99_999) / 100.0));
        for (int bit = 0; bit < 8 * good.length && profile.isChecked(); bit++) {
            byte[] bad = good.clone();
            bad[bit / 8] ^= (byte) (1 << bit % 8);
            assertEquals(List.of(), decode(profile, bad, 90), "seed " + seed + ", bit " + bit);
        }
    }

    /** Hand-written: the sign in the nibble behind five digits, and the one in front of them that has to be zero. */
    @Property(tries = 1)
    void anOddNumberOfNibblesSharesAByteWithAnotherField() throws Exception {
        String json =
                """
                {"name": "x", "description": "x",
                 "line": {"speed_baud": 9600, "dataBits": 8, "parity": "none", "stopBits": 1, "dtr": true, "rts": true},
                 "fixed": {"length": 5, "start": "aa", "end": "55", "decimals": 3, "sign": {"byte": 3, "mask": "01"},
                  "fixedBits": [{"byte": 3, "mask": "0e", "value": 6}],
                  "digits": {"byte": 1, "count": 5, "packing": "nibbles", "order": "most-first", "spareNibble": "low"}},
                 "units": [{"unit": "mm", "resolution": 0.001}]}
                """;
        IndicatorProfile shared = Profiles.parse("x.json", json);
        byte[] bytes = {(byte) 0xaa, 0x12, 0x34, 0x5d, 0x55, (byte) 0xaa, 0x12, 0x34, 0x5c, 0x55};
        assertEquals(
                List.of(-12.345, 12.345),
                decode(shared, bytes, 90).stream().map(Decoded.Value::value).toList());
        IndicatorProfile high = Profiles.parse(
                "x.json",
                json.replace(", \"spareNibble\": \"low\"", "")
                        .replace("\"sign\": {\"byte\": 3, \"mask\": \"01\"},", "")
                        .replace("{\"byte\": 3, \"mask\": \"0e\", \"value\": 6}", ""));
        assertEquals(
                12.345,
                decode(high, new byte[] {(byte) 0xaa, 0x01, 0x23, 0x45, 0x55}, 90)
                        .get(0)
                        .value());
        assertFalse(!decode(high, new byte[] {(byte) 0xaa, 0x71, 0x23, 0x45, 0x55}, 90)
                .isEmpty());
    }
}

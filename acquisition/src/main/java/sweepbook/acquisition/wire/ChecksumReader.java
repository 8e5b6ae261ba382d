package sweepbook.acquisition.wire;

import java.util.List;
import sweepbook.acquisition.json.JsonFault;
import sweepbook.acquisition.json.JsonFields;

/** Reads the parameters of a checksum, which have to give its check value. */
final class ChecksumReader {
    private ChecksumReader() {}

    static Checksum read(JsonFields fields) throws JsonFault {
        Checksum.Kind kind = fields.choice("kind", List.of(Checksum.Kind.values()), ProfileReader::word);
        int bits = fields.integer("bits", 8, 32);
        if (bits != 8 && bits != 16 && bits != 32) {
            throw fields.fault("bits", "must be 8, 16 or 32, not " + bits);
        }
        boolean crc = kind == Checksum.Kind.CRC;
        Checksum checksum = new Checksum(
                kind,
                bits,
                crc ? hex(fields, "polynomial", bits) : 0,
                fields.has("initial") ? hex(fields, "initial", bits) : 0,
                crc && fields.flag("reflectIn"),
                crc && fields.flag("reflectOut"),
                fields.has("xorOut") ? hex(fields, "xorOut", bits) : 0);
        // A CRC has too many parameters to trust that all were copied right.
        if (crc || fields.has("check")) {
            long check = hex(fields, "check", bits);
            if (check != checksum.check()) {
                throw fields.fault(
                        "check",
                        String.format(
                                "these parameters give %x for \"123456789\", not %x; correct them",
                                checksum.check(), check));
            }
        }
        fields.nothingElse();
        return checksum;
    }

    /** A number of so many bits in hexadecimal digits. */
    static long hex(JsonFields fields, String field, int bits) throws JsonFault {
        String text = fields.text(field);
        if (!text.matches("[0-9A-Fa-f]{1," + bits / 4 + "}")) {
            throw fields.fault(field, "must be 1 to " + bits / 4 + " hexadecimal digits, not '" + text + "'");
        }
        return Long.parseLong(text, 16);
    }
}

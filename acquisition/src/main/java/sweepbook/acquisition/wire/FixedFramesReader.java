package sweepbook.acquisition.wire;

import java.util.ArrayList;
import java.util.HexFormat;
import java.util.List;
import java.util.Optional;
import sweepbook.acquisition.json.JsonFault;
import sweepbook.acquisition.json.JsonFields;

/** Reads how frames of fixed length are made up. */
final class FixedFramesReader {
    private final JsonFields fields;
    private final int length;
    private final List<BitField> taken = new ArrayList<>();

    private FixedFramesReader(JsonFields fields, int length) {
        this.fields = fields;
        this.length = length;
    }

    static FixedFrames read(JsonFields fields, List<Scale> scales) throws JsonFault {
        return new FixedFramesReader(fields, fields.integer("length", 2, FixedFrames.LONGEST)).read(scales);
    }

    private FixedFrames read(List<Scale> scales) throws JsonFault {
        byte[] start = bytes("start");
        byte[] end = bytes("end");
        Optional<BitField> point = bits("point");
        Optional<BitField> unit = bits("unit");
        DigitField digits = digits(fields.object("digits"));
        FixedFrames format = new FixedFrames(
                length,
                start,
                end,
                digits,
                point.isPresent() ? 0 : fields.integer("decimals", 0, DigitField.MOST),
                point,
                bits("sign"),
                unit,
                bits("mark"),
                bits("status"),
                bits("channel"),
                fixedBits(digits),
                check());
        if (format.check().isEmpty() && (start.length == 0 || end.length == 0)) {
            throw fields.fault("check", "without a check a frame needs both start and end, to be told from noise");
        }
        for (Scale scale : scales) {
            if (unit.isPresent() && !scale.word().orElse("").matches("\\d{1,3}")) {
                throw fields.fault("unit", "then each unit of the profile needs a word that is this field's number");
            }
        }
        fields.nothingElse();
        return format;
    }

    /** Bytes as hexadecimal digits; none where the field is missing. */
    private byte[] bytes(String field) throws JsonFault {
        String text = fields.optionalText(field).orElse("");
        if (!text.matches("([0-9A-Fa-f]{2}){0," + length + "}")) {
            throw fields.fault(field, "must be pairs of hexadecimal digits, at most " + length);
        }
        return HexFormat.of().parseHex(text);
    }

    private DigitField digits(JsonFields digits) throws JsonFault {
        DigitField field = new DigitField(
                digits.integer("byte", 0, length - 1),
                digits.integer("count", 1, DigitField.MOST),
                digits.choice("packing", List.of(DigitField.Packing.values()), ProfileReader::word),
                leastFirst(digits),
                digits.has("spareNibble")
                        && digits.choice("spareNibble", List.of(true, false), low -> low ? "low" : "high"));
        if (field.at() + field.bytes() > length) {
            throw digits.fault("count", "the digits run beyond the frame's " + length + " bytes");
        }
        digits.nothingElse();
        return field;
    }

    private static boolean leastFirst(JsonFields of) throws JsonFault {
        return of.choice("order", List.of(true, false), least -> least ? "least-first" : "most-first");
    }

    private Optional<BitField> bits(String name) throws JsonFault {
        Optional<JsonFields> bits = fields.optionalObject(name);
        if (bits.isEmpty()) {
            return Optional.empty();
        }
        BitField field = field(bits.get());
        bits.get().nothingElse();
        return Optional.of(field);
    }

    /** Those that the profile names, and the nibble that is no digit: it is zero unless another field has it. */
    private List<FixedFrames.FixedBits> fixedBits(DigitField digits) throws JsonFault {
        List<FixedFrames.FixedBits> all = new ArrayList<>();
        if (fields.has("fixedBits")) {
            for (JsonFields bits : fields.objects("fixedBits")) {
                BitField field = field(bits);
                all.add(new FixedFrames.FixedBits(field, bits.integer("value", 0, field.greatest())));
                bits.nothingElse();
            }
        }
        digits.spare()
                .filter(spare -> taken.stream().noneMatch(spare::overlaps))
                .ifPresent(spare -> all.add(new FixedFrames.FixedBits(spare, 0)));
        return all;
    }

    private BitField field(JsonFields bits) throws JsonFault {
        int mask = (int) ChecksumReader.hex(bits, "mask", 8);
        if (!Integer.toBinaryString(mask).matches("1+0*")) {
            throw bits.fault("mask", "must have one run of bits set, such as 0f");
        }
        BitField field = new BitField(bits.integer("byte", 0, length - 1), mask);
        taken.add(field);
        return field;
    }

    private Optional<FixedFrames.Check> check() throws JsonFault {
        Optional<JsonFields> given = fields.optionalObject("check");
        if (given.isEmpty()) {
            return Optional.empty();
        }
        JsonFields check = given.get();
        Checksum checksum = ChecksumReader.read(check.object("checksum"));
        int from = check.integer("from", 0, length - 1);
        int to = check.integer("to", from + 1, length);
        int at = check.integer("byte", 0, length - checksum.bytes());
        boolean least = checksum.bytes() > 1 && leastFirst(check);
        if (at < to && at + checksum.bytes() > from) {
            throw check.fault("byte", "the checksum covers itself; let it cover bytes from (included) to (excluded)");
        }
        check.nothingElse();
        return Optional.of(new FixedFrames.Check(checksum, from, to, at, least));
    }
}

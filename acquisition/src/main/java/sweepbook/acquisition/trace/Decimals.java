package sweepbook.acquisition.trace;

import java.math.BigDecimal;
import java.nio.charset.StandardCharsets;

/** Numbers as decimal text and back, without losing a bit. */
final class Decimals {
    /** Whole numbers and powers of ten up to these are exact in a double, so that one division rounds correctly. */
    private static final long EXACT = 1L << 53;

    private static final double[] POWERS = new double[23];

    static {
        for (int i = 0; i < POWERS.length; i++) {
            POWERS[i] = Double.parseDouble("1e" + i);
        }
    }

    private Decimals() {}

    /** The number in the text, NaN where there is none. */
    static double parse(byte[] text, int from, int to) {
        int i = from;
        boolean negative = i < to && text[i] == '-';
        if (i < to && (text[i] == '-' || text[i] == '+')) {
            i++;
        }
        long digits = 0;
        int count = 0;
        int point = -1;
        for (; i < to; i++) {
            byte b = text[i];
            if (b >= '0' && b <= '9' && digits < EXACT / 10 - 1) {
                digits = 10 * digits + (b - '0');
                count++;
            } else if (b == '.' && point < 0) {
                point = count;
            } else {
                return slow(text, from, to);
            }
        }
        int decimals = point < 0 ? 0 : count - point;
        if (count == 0 || decimals >= POWERS.length) {
            return slow(text, from, to);
        }
        double value = digits / POWERS[decimals];
        return negative ? -value : value;
    }

    private static double slow(byte[] text, int from, int to) {
        for (int i = from; i < to; i++) {
            // Double.parseDouble also takes words, hexadecimal and type suffixes; a trace holds none.
            if ("0123456789+-.eE".indexOf(text[i]) < 0) {
                return Double.NaN;
            }
        }
        try {
            return Double.parseDouble(new String(text, from, to - from, StandardCharsets.US_ASCII));
        } catch (NumberFormatException e) {
            return Double.NaN;
        }
    }

    /** How many decimals the number in the text is written with, 0 where it ends before the point. */
    static int count(byte[] text, int from, int to) {
        int point = to;
        for (int i = from; i < to; i++) {
            if (text[i] == 'e' || text[i] == 'E') {
                String number = new String(text, from, to - from, StandardCharsets.US_ASCII);
                return Math.max(0, new BigDecimal(number).scale());
            }
            if (text[i] == '.') {
                point = i + 1;
            }
        }
        return to - point;
    }

    /** What a step of the last of so many decimals is. */
    static double step(int decimals) {
        return 1 / POWERS[Math.min(decimals, POWERS.length - 1)];
    }

    /** The value with so many decimals where they hold it whole, else with as many as it takes. */
    static void print(StringBuilder to, double value, int decimals) {
        double scaled = Math.abs(value) * POWERS[decimals];
        long digits = Math.round(scaled);
        if (!(scaled < EXACT) || digits / POWERS[decimals] != Math.abs(value)) {
            to.append(BigDecimal.valueOf(value).toPlainString());
            return;
        }
        if (value < 0) {
            to.append('-');
        }
        String text = Long.toString(digits);
        int whole = text.length() - decimals;
        if (whole <= 0) {
            to.append('0');
        } else {
            to.append(text, 0, whole);
        }
        if (decimals > 0) {
            to.append('.').append("0".repeat(Math.max(0, -whole))).append(text, Math.max(0, whole), text.length());
        }
    }
}

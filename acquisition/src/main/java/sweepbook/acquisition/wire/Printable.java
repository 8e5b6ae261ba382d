package sweepbook.acquisition.wire;

/** Bytes as a person can read them: what is not plain ASCII stands as {@code \r}, {@code \n} or hexadecimal. */
public final class Printable {
    private Printable() {}

    public static String of(byte[] bytes, int from, int length) {
        StringBuilder text = new StringBuilder();
        for (int i = from; i < from + length; i++) {
            int b = bytes[i] & 0xff;
            switch (b) {
                case '\r' -> text.append("\\r");
                case '\n' -> text.append("\\n");
                case '\\' -> text.append("\\\\");
                default -> text.append(b >= ' ' && b < 0x7f ? "" + (char) b : String.format("\\x%02x", b));
            }
        }
        return text.toString();
    }
}

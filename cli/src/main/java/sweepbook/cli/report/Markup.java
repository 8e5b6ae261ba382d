package sweepbook.cli.report;

import java.util.ArrayDeque;
import java.util.Deque;
import java.util.Locale;
import java.util.Set;

/**
 * Nested elements of HTML or SVG as text. Whatever comes in as text or as a value of an attribute is escaped, and
 * characters that would hide or reorder what a person typed are written out. The same calls give the same bytes.
 */
final class Markup {
    private static final Set<String> INLINE =
            Set.of("a", "abbr", "b", "bdi", "code", "em", "small", "span", "strong", "sub", "sup", "time", "tspan");

    private final StringBuilder out = new StringBuilder();
    private final Deque<String> open = new ArrayDeque<>();

    /** Opens an element; attributes are names and values in turn. */
    Markup open(String tag, Object... attributes) {
        start(tag, attributes);
        out.append('>');
        open.push(tag);
        return this;
    }

    Markup close() {
        String tag = open.pop();
        out.append("</").append(tag).append('>');
        return endOfLine(tag);
    }

    /** A whole element that holds text. */
    Markup element(String tag, String text, Object... attributes) {
        return open(tag, attributes).text(text).close();
    }

    /** A whole element that holds nothing: {@code <path ... />}, {@code <meta ... />}. */
    Markup empty(String tag, Object... attributes) {
        start(tag, attributes);
        out.append(" />");
        return endOfLine(tag);
    }

    Markup text(String text) {
        escape(text);
        return this;
    }

    /** Takes markup as it stands. */
    Markup raw(String markup) {
        out.append(markup);
        return this;
    }

    private Markup endOfLine(String tag) {
        if (!INLINE.contains(tag)) {
            out.append('\n');
        }
        return this;
    }

    private void start(String tag, Object... attributes) {
        out.append('<').append(tag);
        for (int i = 0; i < attributes.length; i += 2) {
            out.append(' ').append(attributes[i]).append("=\"");
            if (attributes[i + 1] instanceof Double px) {
                appendPx(out, px);
            } else {
                escape(String.valueOf(attributes[i + 1]));
            }
            out.append('"');
        }
    }

    /** A place in a picture to a tenth of a pixel: finer than any screen or printer shows. */
    static void appendPx(StringBuilder to, double px) {
        long tenths = Math.round(px * 10);
        if (tenths < 0) {
            to.append('-');
        }
        long positive = Math.abs(tenths);
        to.append(positive / 10);
        if (positive % 10 != 0) {
            to.append('.').append(positive % 10);
        }
    }

    private void escape(String text) {
        text.codePoints().forEach(c -> {
            switch (c) {
                case '&' -> out.append("&amp;");
                case '<' -> out.append("&lt;");
                case '>' -> out.append("&gt;");
                case '"' -> out.append("&quot;");
                case '\n', '\t' -> out.append((char) c);
                default -> visible(c);
            }
        });
    }

    /** Control and direction characters are shown by their code point: a record must not read otherwise than it is. */
    private void visible(int c) {
        int type = Character.getType(c);
        if (type == Character.CONTROL || type == Character.FORMAT || type == Character.SURROGATE) {
            out.append(String.format(Locale.ROOT, "[U+%04X]", c));
        } else {
            out.appendCodePoint(c);
        }
    }

    @Override
    public String toString() {
        if (!open.isEmpty()) {
            throw new IllegalStateException("not closed: " + open);
        }
        return out.toString();
    }
}

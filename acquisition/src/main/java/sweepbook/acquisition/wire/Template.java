package sweepbook.acquisition.wire;

import java.util.IllegalFormatException;
import java.util.Locale;
import java.util.Map;
import java.util.TreeSet;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * A line of text with places for values: <code>{reading:%+09.4f} {unit}</code>. After the colon stands a format of
 * {@link java.util.Formatter}, with the point or comma of the indicator; without one the value is printed as it is.
 */
record Template(String text, char decimalMark) {
    private static final Pattern PLACE = Pattern.compile("\\{(\\w+)(?::([^}]*))?}");

    /** Throws an IllegalArgumentException that says what is wrong where a place is unknown or its format is. */
    void check(Map<String, Object> examples) {
        Matcher place = PLACE.matcher(text);
        while (place.find()) {
            if (!examples.containsKey(place.group(1))) {
                throw new IllegalArgumentException(
                        "'" + place.group() + "' is not known; known are " + new TreeSet<>(examples.keySet()));
            }
        }
        try {
            print(examples);
        } catch (IllegalFormatException e) {
            throw new IllegalArgumentException("a format does not fit its value: " + e.getMessage(), e);
        }
    }

    /** The part in front of a place; all of it where there is no such place. */
    Template before(String name) {
        int at = text.indexOf("{" + name);
        return at < 0 ? this : new Template(text.substring(0, at), decimalMark);
    }

    String print(Map<String, Object> values) {
        Matcher place = PLACE.matcher(text);
        Locale locale = decimalMark == ',' ? Locale.GERMANY : Locale.ROOT;
        StringBuilder line = new StringBuilder();
        while (place.find()) {
            Object value = values.getOrDefault(place.group(1), "");
            String printed = place.group(2) == null ? value.toString() : String.format(locale, place.group(2), value);
            place.appendReplacement(line, Matcher.quoteReplacement(printed));
        }
        return place.appendTail(line).toString();
    }
}

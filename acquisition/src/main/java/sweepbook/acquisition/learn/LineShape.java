package sweepbook.acquisition.learn;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import sweepbook.acquisition.trace.LengthUnit;

/**
 * What lines of text have in common: words at even places and numbers at odd ones. Numbers are held to the widths that
 * were seen, words to those that were seen.
 */
record LineShape(char decimalMark, List<List<String>> columns) {
    /** How devices write their units. */
    private static final Map<String, LengthUnit> UNITS = Map.of(
            "mm", LengthUnit.MM, "MM", LengthUnit.MM, "in", LengthUnit.IN, "IN", LengthUnit.IN, "inch", LengthUnit.IN);

    private static final Pattern UNIT = Pattern.compile("[ \t]*(mm|MM|inch|in|IN)(?![A-Za-z])");

    /** More indicators than share one line. */
    private static final int MOST_CHANNELS = 8;

    /** Digits in front of the point, where numbers are not padded: what an indicator can show at most. */
    private static final int MOST_WHOLE = 3;

    private static Pattern number(char decimalMark) {
        return Pattern.compile("[+-]? *\\d+(?:" + (decimalMark == ',' ? "," : "\\.") + "\\d+)?");
    }

    /** Cut into word, number, word, number, ..., word. */
    static List<String> cut(String line, char decimalMark) {
        List<String> parts = new ArrayList<>();
        Matcher number = number(decimalMark).matcher(line);
        int at = 0;
        while (number.find()) {
            parts.add(line.substring(at, number.start()));
            parts.add(number.group());
            at = number.end();
        }
        parts.add(line.substring(at));
        return parts;
    }

    /** The shape of lines that are all cut into as many parts. */
    static LineShape of(List<String> lines, char decimalMark) {
        List<List<String>> columns = new ArrayList<>();
        for (String line : lines) {
            List<String> parts = cut(line, decimalMark);
            for (int i = 0; i < parts.size(); i++) {
                if (columns.size() == i) {
                    columns.add(new ArrayList<>());
                }
                columns.get(i).add(parts.get(i));
            }
        }
        return new LineShape(decimalMark, columns);
    }

    /** The columns of numbers that change but do not only count up, as a clock does. */
    List<Integer> candidates() {
        List<Integer> candidates = new ArrayList<>();
        for (int i = 1; i < columns.size(); i += 2) {
            List<String> column = columns.get(i);
            if (Set.copyOf(column).size() > 1 && !counts(column)) {
                candidates.add(i);
            }
        }
        return candidates;
    }

    private static boolean counts(List<String> column) {
        for (int i = 1; i < column.size(); i++) {
            if (!isWhole(column.get(i)) || whole(column.get(i)) <= whole(column.get(i - 1))) {
                return false;
            }
        }
        return true;
    }

    private static boolean isWhole(String number) {
        return number.matches("\\d{1,15}");
    }

    private static long whole(String number) {
        return isWhole(number) ? Long.parseLong(number) : Long.MAX_VALUE;
    }

    /** The column beside the reading that could be the address of several indicators: few whole numbers take turns. */
    Optional<Integer> address(int reading) {
        return candidates().stream()
                .filter(i -> i != reading && columns.get(i).stream().allMatch(LineShape::isWhole))
                .filter(i -> Set.copyOf(columns.get(i)).size() <= MOST_CHANNELS)
                .findFirst();
    }

    List<String> column(int i) {
        return columns.get(i);
    }

    /** What stands in a column, each once. */
    Set<String> different(int i) {
        return new LinkedHashSet<>(columns.get(i));
    }

    /** The words behind the column that say a unit, with the numbers in front of each; empty where there is none. */
    Map<String, List<String>> byUnitWord(int reading) {
        Map<String, List<String>> numbers = new LinkedHashMap<>();
        for (int row = 0; row < columns.get(reading).size(); row++) {
            Matcher unit = UNIT.matcher(columns.get(reading + 1).get(row));
            if (unit.lookingAt()) {
                numbers.computeIfAbsent(unit.group(1), word -> new ArrayList<>())
                        .add(columns.get(reading).get(row));
            }
        }
        return numbers;
    }

    static LengthUnit unitOf(String word) {
        return UNITS.get(word);
    }

    /** The pattern of a profile in which the column is the reading. */
    String pattern(int reading, Optional<Integer> address) {
        StringBuilder pattern = new StringBuilder();
        boolean blanksAhead = columns.get(reading - 1).stream().anyMatch(word -> word.endsWith(" "));
        for (int i = 0; i < columns.size(); i++) {
            if (i == reading) {
                pattern.append("(?<reading>")
                        .append(blanksAhead ? " *" : "")
                        .append(reading(columns.get(i)))
                        .append(')');
            } else if (address.equals(Optional.of(i))) {
                pattern.append("(?<channel>").append(number(columns.get(i))).append(')');
            } else if (i % 2 == 1) {
                pattern.append(number(columns.get(i)));
            } else {
                pattern.append(words(i, reading));
            }
        }
        return pattern.toString();
    }

    private String words(int i, int reading) {
        Set<String> words = new LinkedHashSet<>();
        for (String word : columns.get(i)) {
            Matcher unit = UNIT.matcher(word);
            if (i == reading + 1 && unit.lookingAt()) {
                Set<String> units = byUnitWord(reading).keySet();
                words.add(quoted(word.substring(0, unit.start(1))) + "(?<unit>" + String.join("|", units) + ")"
                        + quoted(word.substring(unit.end())));
            } else {
                // Blanks in front of the reading are its padding.
                words.add(quoted(i == reading - 1 ? word.stripTrailing() : word));
            }
        }
        return words.size() == 1 ? words.iterator().next() : "(?:" + String.join("|", words) + ")";
    }

    private static String quoted(String word) {
        return word.chars()
                .mapToObj(c -> "\\.[]{}()*+-?^$|".indexOf(c) >= 0 ? "\\" + (char) c : "" + (char) c)
                .collect(Collectors.joining());
    }

    /** Of any sign, and where it is not padded of any width: the plunger need not have been everywhere. */
    private String reading(List<String> column) {
        List<String> whole = wholes(column);
        boolean padded = whole.stream().anyMatch(digits -> digits.length() > 1 && digits.startsWith("0"));
        int most = whole.stream().mapToInt(String::length).max().orElse(1);
        String digits = padded ? "\\d" + widths(whole) : "\\d{1," + Math.max(most, MOST_WHOLE) + "}";
        boolean signed = column.stream().allMatch(n -> "+-".indexOf(n.charAt(0)) >= 0);
        return (signed ? "[+-]" : "[+-]?") + blanks(column) + digits + decimals(column);
    }

    private String number(List<String> column) {
        long signs = column.stream().filter(n -> "+-".indexOf(n.charAt(0)) >= 0).count();
        String sign = signs == 0 ? "" : signs == column.size() ? "[+-]" : "[+-]?";
        return sign + blanks(column) + "\\d" + widths(wholes(column)) + decimals(column);
    }

    private static String blanks(List<String> column) {
        return column.stream().anyMatch(n -> n.contains(" ")) ? " *" : "";
    }

    private List<String> wholes(List<String> column) {
        return column.stream()
                .map(n -> n.replaceAll("[+ -]", ""))
                .map(n -> n.indexOf(decimalMark) < 0 ? n : n.substring(0, n.indexOf(decimalMark)))
                .toList();
    }

    private String decimals(List<String> column) {
        List<String> parts = column.stream()
                .map(n -> n.indexOf(decimalMark) < 0 ? "" : n.substring(n.indexOf(decimalMark) + 1))
                .toList();
        String mark = decimalMark == '.' ? "\\." : ",";
        if (parts.stream().allMatch(String::isEmpty)) {
            return "";
        }
        return parts.stream().anyMatch(String::isEmpty) ? "(?:" + mark + "\\d{1,6})?" : mark + "\\d" + widths(parts);
    }

    private static String widths(List<String> digits) {
        int least = digits.stream().mapToInt(String::length).min().orElse(1);
        int most = digits.stream().mapToInt(String::length).max().orElse(1);
        if (least == most) {
            return most == 1 ? "" : "{" + most + "}";
        }
        return "{" + least + "," + most + "}";
    }
}

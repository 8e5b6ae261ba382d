package sweepbook.acquisition.learn;

import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Set;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Collectors;

/**
 * What lines of text have in common: numbers and words that take turns. Numbers are held to the widths that were seen,
 * words to those that were seen.
 */
record LineShape(List<List<String>> columns) {
    private static final Pattern NUMBER = Pattern.compile("[+-]? *\\d+(?:\\.\\d+)?");
    private static final Pattern UNIT = Pattern.compile("( *)(mm|in)(?![a-z])");

    /** Cut into word, number, word, number, ..., word. */
    static List<String> cut(String line) {
        List<String> parts = new ArrayList<>();
        Matcher number = NUMBER.matcher(line);
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
    static LineShape of(List<String> lines) {
        List<List<String>> columns = new ArrayList<>();
        for (String line : lines) {
            List<String> parts = cut(line);
            for (int i = 0; i < parts.size(); i++) {
                if (columns.size() == i) {
                    columns.add(new ArrayList<>());
                }
                columns.get(i).add(parts.get(i));
            }
        }
        return new LineShape(columns);
    }

    /** The columns of numbers that change but do not only count up, as a clock does. */
    List<Integer> candidates() {
        List<Integer> candidates = new ArrayList<>();
        for (int i = 1; i < columns.size(); i += 2) {
            List<String> column = columns.get(i);
            boolean changes = Set.copyOf(column).size() > 1;
            if (changes && !counts(column)) {
                candidates.add(i);
            }
        }
        return candidates;
    }

    private static boolean counts(List<String> column) {
        for (int i = 1; i < column.size(); i++) {
            if (column.get(i).contains(".") || value(column.get(i)) <= value(column.get(i - 1))) {
                return false;
            }
        }
        return true;
    }

    static double value(String number) {
        return Double.parseDouble(number.replace(" ", ""));
    }

    List<String> column(int i) {
        return columns.get(i);
    }

    /** The unit words behind the column, in the order in which they came; empty where there is none. */
    Set<String> unitWords(int reading) {
        Set<String> words = new LinkedHashSet<>();
        for (String word : columns.get(reading + 1)) {
            Matcher unit = UNIT.matcher(word);
            if (unit.lookingAt()) {
                words.add(unit.group(2));
            }
        }
        return words;
    }

    /** The pattern of a profile in which the column is the reading. */
    String pattern(int reading) {
        StringBuilder pattern = new StringBuilder();
        for (int i = 0; i < columns.size(); i++) {
            if (i == reading) {
                pattern.append("(?<reading>").append(number(columns.get(i))).append(')');
            } else if (i % 2 == 1) {
                pattern.append(number(columns.get(i)));
            } else {
                pattern.append(words(columns.get(i), i == reading + 1));
            }
        }
        return pattern.toString();
    }

    private static String words(List<String> column, boolean mayBeUnit) {
        Set<String> words = new LinkedHashSet<>();
        for (String word : column) {
            Matcher unit = UNIT.matcher(word);
            words.add(
                    mayBeUnit && unit.lookingAt()
                            ? unit.group(1) + "(?<unit>mm|in)" + quoted(word.substring(unit.end()))
                            : quoted(word));
        }
        return words.size() == 1 ? words.iterator().next() : "(?:" + String.join("|", words) + ")";
    }

    private static String quoted(String word) {
        return word.chars()
                .mapToObj(c -> "\\.[]{}()*+-?^$|".indexOf(c) >= 0 ? "\\" + (char) c : "" + (char) c)
                .collect(Collectors.joining());
    }

    private static String number(List<String> column) {
        long signs = column.stream().filter(n -> "+-".indexOf(n.charAt(0)) >= 0).count();
        String sign = signs == 0 ? "" : signs == column.size() ? "[+-]" : "[+-]?";
        boolean blanks = column.stream().anyMatch(n -> n.contains(" "));
        List<String> bare = column.stream().map(n -> n.replaceAll("[+ -]", "")).toList();
        List<String> whole = bare.stream().map(n -> n.replaceAll("\\..*", "")).toList();
        List<String> part = bare.stream()
                .map(n -> n.contains(".") ? n.substring(n.indexOf('.') + 1) : "")
                .toList();
        String digits = "\\d" + widths(whole);
        String decimals = part.stream().allMatch(String::isEmpty) ? "" : "\\.\\d" + widths(part);
        return sign + (blanks ? " *" : "") + digits + decimals;
    }

    private static String widths(List<String> digits) {
        int least = digits.stream().mapToInt(String::length).min().orElse(1);
        int most = digits.stream().mapToInt(String::length).max().orElse(1);
        return least == most ? "{" + least + "}" : "{" + least + "," + most + "}";
    }
}

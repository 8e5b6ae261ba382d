package sweepbook.cli.book;

import java.util.List;
import java.util.Locale;
import java.util.regex.MatchResult;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import sweepbook.acquisition.trace.LengthUnit;

/** What the analysis says in millimetres, for a person whose machine or indicator shows inches. */
public final class LengthWords {
    private static final Pattern MILLIMETRES = Pattern.compile("(-?\\d+\\.\\d+) mm\\b");

    private LengthWords() {}

    public static List<String> in(LengthUnit unit, List<String> told) {
        return told.stream().map(line -> in(unit, line)).toList();
    }

    /** The same sentence with its lengths in the unit; inches get one decimal more. */
    static String in(LengthUnit unit, String told) {
        return unit == LengthUnit.MM ? told : MILLIMETRES.matcher(told).replaceAll(LengthWords::inches);
    }

    private static String inches(MatchResult length) {
        String mm = length.group(1);
        int decimals = mm.length() - mm.indexOf('.');
        return Matcher.quoteReplacement(
                String.format(Locale.ROOT, "%." + decimals + "f in", LengthUnit.IN.fromMm(Double.parseDouble(mm))));
    }
}

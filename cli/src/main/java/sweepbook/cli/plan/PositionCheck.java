package sweepbook.cli.plan;

import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import sweepbook.acquisition.trace.LengthUnit;

/**
 * Looks at a typed position before it is believed: what cannot be a position of this machine is refused, what is
 * unlikely is doubted until the person insists by typing it again with an exclamation mark behind it.
 */
public final class PositionCheck {
    private static final Pattern NUMBER = Pattern.compile("([+-]?\\d{1,7}(?:\\.(\\d+))?)(?:\\s*(mm|in))?");
    private static final Pattern WITH_COMMA = Pattern.compile("[+-]?\\d+,\\d+.*");

    private final Plan.Machine machine;
    private final Plan.Travel travel;

    public PositionCheck(Plan.Machine machine, Plan.Travel travel) {
        this.machine = machine;
        this.travel = travel;
    }

    /** How a typed text fared. */
    public sealed interface Verdict {
        /** @param against the doubt that the person stood by it against */
        record Taken(TypedPosition position, Optional<String> against) implements Verdict {}

        /** It may be so; the person can insist. */
        record Doubted(TypedPosition position, String why) implements Verdict {}

        /** It cannot be so. */
        record Refused(String why) implements Verdict {}
    }

    /** What else is known of the position, from the trace or from the table. */
    @FunctionalInterface
    public interface Expectation {
        /** Why the position is unlikely; empty where it is not. */
        Optional<String> doubt(double position_mm);
    }

    public Verdict check(String typed, List<Expectation> expectations) {
        String text = typed.strip();
        boolean insists = text.endsWith("!");
        if (insists) {
            text = text.substring(0, text.length() - 1).strip();
        }
        LengthUnit unit = machine.resolution().unit();
        int decimals = machine.resolution().value().scale();
        if (WITH_COMMA.matcher(text).matches()) {
            return new Verdict.Refused(
                    "'" + text + "' has a comma; write the decimal point, as in " + text.replaceFirst(",", "."));
        }
        Matcher number = NUMBER.matcher(text);
        if (!number.matches()) {
            return new Verdict.Refused("'" + text + "' is not a position; type what the controller shows for "
                    + travel.axis() + ", as in " + example(decimals));
        }
        if (number.group(3) != null && LengthUnit.of(number.group(3)) != unit) {
            return new Verdict.Refused("'" + text + "' has the unit " + number.group(3) + ", but this machine shows "
                    + unit.symbol() + "; type what it shows");
        }
        int typedDecimals = number.group(2) == null ? 0 : number.group(2).length();
        if (typedDecimals > decimals) {
            return new Verdict.Refused("'" + text + "' has " + decimals(typedDecimals) + ", but this machine shows "
                    + decimals + "; read it again");
        }
        TypedPosition position = new TypedPosition(typed.strip(), new BigDecimal(number.group(1)), unit);
        Optional<String> doubt = doubt(position, typedDecimals, decimals, expectations);
        return doubt.isPresent() && !insists
                ? new Verdict.Doubted(position, doubt.get())
                : new Verdict.Taken(position, doubt);
    }

    /** Everything that speaks against it, for whoever insists stands by the position against all of it. */
    private Optional<String> doubt(
            TypedPosition position, int typedDecimals, int decimals, List<Expectation> expectations) {
        List<String> doubts = new ArrayList<>();
        if (typedDecimals < decimals) {
            doubts.add((typedDecimals == 0 ? "no decimals" : "only " + decimals(typedDecimals))
                    + " where the machine shows " + decimals + ": a digit may be missing");
        } else if (position.value().remainder(machine.resolution().value()).signum() != 0) {
            doubts.add("not a whole number of the machine's steps of " + machine.resolution());
        }
        if (position.mm() < travel.from().mm() || position.mm() > travel.to().mm()) {
            doubts.add("outside the travel of " + travel.axis() + ", " + travel.from() + " to " + travel.to());
        }
        expectations.forEach(expectation -> expectation.doubt(position.mm()).ifPresent(doubts::add));
        return doubts.isEmpty() ? Optional.empty() : Optional.of(String.join("; and ", doubts));
    }

    private static String decimals(int count) {
        return count + (count == 1 ? " decimal" : " decimals");
    }

    private static String example(int decimals) {
        return "17." + "094000000".substring(0, Math.max(1, Math.min(decimals, 9)));
    }
}

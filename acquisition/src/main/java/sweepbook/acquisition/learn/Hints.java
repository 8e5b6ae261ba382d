package sweepbook.acquisition.learn;

import java.util.Optional;
import sweepbook.acquisition.trace.LengthUnit;

/**
 * What the person says of an indicator whose bytes leave it open.
 *
 * @param unit what the display shows
 * @param number which of several changing numbers of a line is the reading, from 1
 * @param channel the address of the wanted indicator where several share a line; {@value #ANY} where none is one
 * @param decimalMark whether a comma stands in front of decimals or between numbers
 */
public record Hints(
        Optional<LengthUnit> unit,
        Optional<Integer> number,
        Optional<String> channel,
        Optional<Character> decimalMark) {
    public static final String ANY = "any";

    public static final Hints NONE = new Hints(Optional.empty(), Optional.empty(), Optional.empty(), Optional.empty());

    public Hints withUnit(LengthUnit shown) {
        return new Hints(Optional.of(shown), number, channel, decimalMark);
    }

    public Hints withNumber(int which) {
        return new Hints(unit, Optional.of(which), channel, decimalMark);
    }

    public Hints withChannel(String address) {
        return new Hints(unit, number, Optional.of(address), decimalMark);
    }

    public Hints withDecimalMark(char mark) {
        return new Hints(unit, number, channel, Optional.of(mark));
    }
}

package sweepbook.cli.plan;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertInstanceOf;

import java.math.BigDecimal;
import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import sweepbook.acquisition.trace.LengthUnit;
import sweepbook.cli.plan.PositionCheck.Expectation;
import sweepbook.cli.plan.PositionCheck.Verdict;

class PositionCheckTest {
    private static final Plan.Travel X = new Plan.Travel(Axis.X, Length.of("-50.000 mm"), Length.of("3200.000 mm"));
    private static final PositionCheck CHECK = new PositionCheck(
            new Plan.Machine("router", "HJ-1", Length.of("0.001 mm"), Length.of("0.010 mm"), List.of(X)), X);

    @Test
    void whatTheMachineShowsIsTaken() {
        assertTaken("17.094", "17.094");
        assertTaken(" -3.500 ", "-3.500");
        assertTaken("17.094 mm", "17.094");
    }

    @Test
    void aDecimalCommaIsRefused() {
        assertRefused("17,094", "'17,094' has a comma; write the decimal point, as in 17.094");
    }

    @Test
    void moreDecimalsThanTheMachineShowsAreRefused() {
        assertRefused("1.7094", "'1.7094' has 4 decimals, but this machine shows 3; read it again");
        assertRefused("17.0945", "'17.0945' has 4 decimals, but this machine shows 3; read it again");
        assertRefused("17.0945!", "'17.0945' has 4 decimals, but this machine shows 3; read it again");
    }

    @Test
    void anotherUnitIsRefused() {
        assertRefused("0.673 in", "'0.673 in' has the unit in, but this machine shows mm; type what it shows");
    }

    @Test
    void wordsAreRefused() {
        assertRefused("about 17", "'about 17' is not a position; type what the controller shows for X, as in 17.094");
    }

    @Test
    void aMissingDigitIsDoubtedUntilThePersonInsists() {
        assertDoubted("17.09", "only 2 decimals where the machine shows 3: a digit may be missing");
        assertDoubted("17.1", "only 1 decimal where the machine shows 3: a digit may be missing");
        assertDoubted("17", "no decimals where the machine shows 3: a digit may be missing");
        Verdict.Taken taken = assertInstanceOf(Verdict.Taken.class, CHECK.check("17.09!", List.of()));
        assertEquals(Optional.of("only 2 decimals where the machine shows 3: a digit may be missing"), taken.against());
    }

    @Test
    void toInsistOnWhatNothingSpeaksAgainstIsNoDoubt() {
        assertTaken("17.094!", "17.094");
    }

    @Test
    void aPositionOutsideTheTravelIsDoubted() {
        assertDoubted("17094.000", "outside the travel of X, -50.000 mm to 3200.000 mm");
    }

    /** Whoever insists on a few decimals must have seen that the position is far outside as well. */
    @Test
    void allThatSpeaksAgainstAPositionIsSaidAtOnce() {
        assertDoubted(
                "17094.0",
                "only 1 decimal where the machine shows 3: a digit may be missing;"
                        + " and outside the travel of X, -50.000 mm to 3200.000 mm");
    }

    @Test
    void aPositionOffTheMachinesStepsIsDoubted() {
        PositionCheck halfThou = new PositionCheck(
                new Plan.Machine("saw", "HJ-2", Length.of("0.0005 in"), Length.of("0.0010 in"), List.of(X)), X);
        assertEquals(
                "not a whole number of the machine's steps of 0.0005 in",
                assertInstanceOf(Verdict.Doubted.class, halfThou.check("1.0003", List.of()))
                        .why());
        assertInstanceOf(Verdict.Taken.class, halfThou.check("1.0005", List.of()));
    }

    @Test
    void whatTheTraceSaysIsHeldAgainstIt() {
        Expectation about20 = p -> Math.abs(p - 20) > 1 ? Optional.of("the clicks say about 20") : Optional.empty();
        assertEquals(
                new Verdict.Doubted(
                        new TypedPosition("17.094", new BigDecimal("17.094"), LengthUnit.MM),
                        "the clicks say about 20"),
                CHECK.check("17.094", List.of(about20)));
        assertInstanceOf(Verdict.Taken.class, CHECK.check("20.094", List.of(about20)));
    }

    private static void assertTaken(String typed, String value) {
        assertEquals(
                new Verdict.Taken(
                        new TypedPosition(typed.strip(), new BigDecimal(value), LengthUnit.MM), Optional.empty()),
                CHECK.check(typed, List.of()));
    }

    private static void assertRefused(String typed, String why) {
        assertEquals(new Verdict.Refused(why), CHECK.check(typed, List.of()));
    }

    private static void assertDoubted(String typed, String why) {
        assertEquals(
                why,
                assertInstanceOf(Verdict.Doubted.class, CHECK.check(typed, List.of()))
                        .why());
    }
}

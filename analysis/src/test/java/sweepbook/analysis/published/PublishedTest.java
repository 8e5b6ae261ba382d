package sweepbook.analysis.published;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.junit.jupiter.api.Test;

class PublishedTest {
    private static Published sample() {
        return Published.of(
                "source = nobody",
                "seen = here",
                "[data]",
                "x = 1 2e3",
                "[published]",
                "a = 0.25 # note",
                "b = 1..2 3.0(0.5)");
    }

    @Test
    void everythingUsedAndWithinHalfALastDigitPasses() {
        try (Published source = sample()) {
            assertArrayEquals(new double[] {1, 2000}, source.data("x"));
            source.check("a", 0.2549);
            source.check("b", 1.5, 3.5);
        }
    }

    @Test
    void aValueComparedWithNothingFails() {
        Published source = sample();
        source.data("x");
        source.check("a", 0.25);
        AssertionError error = assertThrows(AssertionError.class, source::close);
        assertTrue(error.getMessage().contains("[b]"), error.getMessage());
    }

    @Test
    void dataNotUsedFail() {
        Published source = sample();
        source.check("a", 0.25);
        source.check("b", 1, 3);
        assertThrows(AssertionError.class, source::close);
    }

    @Test
    void valuesOffByMoreThanTheTolerance_notANumber_orMissing_fail() {
        Published source = sample();
        assertThrows(AssertionError.class, () -> source.check("a", 0.2551));
        assertThrows(AssertionError.class, () -> source.check("a", Double.NaN));
        assertThrows(AssertionError.class, () -> source.check("b", 1.5));
        assertThrows(AssertionError.class, () -> source.check("b", 1.5, 3.51));
        assertThrows(AssertionError.class, () -> source.check("c", 1));
    }

    @Test
    void aSourceThatDoesNotNameItselfFails() {
        assertThrows(AssertionError.class, () -> Published.of("[published]", "a = 1"));
        assertThrows(AssertionError.class, () -> Published.of("source = x", "seen = y", "[data]", "a = 1"));
    }
}

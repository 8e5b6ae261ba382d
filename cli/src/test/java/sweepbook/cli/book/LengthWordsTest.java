package sweepbook.cli.book;

import static org.junit.jupiter.api.Assertions.assertEquals;

import org.junit.jupiter.api.Test;
import sweepbook.acquisition.trace.LengthUnit;

class LengthWordsTest {
    private static final String TOLD =
            "after 60 s the place differs by -0.0508 mm, more than the 0.0254 mm that chance explains";

    @Test
    void inchesAreSaidWhereInchesAreShown() {
        assertEquals(
                "after 60 s the place differs by -0.00200 in, more than the 0.00100 in that chance explains",
                LengthWords.in(LengthUnit.IN, TOLD));
    }

    @Test
    void millimetresStay() {
        assertEquals(TOLD, LengthWords.in(LengthUnit.MM, TOLD));
    }
}

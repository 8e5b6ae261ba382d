package sweepbook.cli.book;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Path;
import java.time.Instant;
import java.util.List;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import sweepbook.analysis.head.TipErrors;
import sweepbook.analysis.head.TipErrors.TipError;
import sweepbook.analysis.uncertainty.Estimate;

class ToolEffectTest {
    private static List<OffsetResult> results;
    private static ToolEffect effect;

    @BeforeAll
    static void measure(@TempDir Path folder) throws Exception {
        Path file = folder.resolve("joinery.book");
        JoineryBook.write(file, 5, Instant.parse("2026-03-02T07:40:00Z"));
        Book book = BookFile.read(file);
        results = new Offsets(book).all();
        effect = ToolEffect.of(book.plan(), results).orElseThrow();
    }

    private static Estimate change(String offset) {
        return results.stream()
                .filter(result -> result.planned().name().equals(offset))
                .flatMap(result -> result.result().asOptional().stream())
                .map(outcome -> new Estimate(
                        outcome.offset().value() - outcome.entry().before().doubleValue(),
                        outcome.offset().combined().stdU(),
                        outcome.offset().combined().degreesOfFreedom()))
                .findFirst()
                .orElseThrow();
    }

    /**
     * Law: an error e of the tool's place against the swivel axis goes round with it; touched off at C = 0 the tip misses
     * by 2 e sin(C/2), whatever the tilt.
     */
    @Test
    void anErrorAtTheSwivelGoesRoundWithIt() {
        double e_mm = Math.hypot(
                change("swivel-axis-to-spindle").value(),
                change("swivel-axis-to-spindle-y").value());
        assertTrue(e_mm > 0.05, "the simulated table is off by " + e_mm + " mm");
        assertEquals(81, effect.errors().size());
        for (TipError error : effect.errors()) {
            double expected_mm =
                    2 * e_mm * Math.abs(Math.sin(Math.toRadians(error.pose().get("C")) / 2));
            assertEquals(
                    expected_mm, error.size().value(), 1e-9, () -> error.pose().toString());
        }
        assertEquals(2 * e_mm, TipErrors.worst(effect.errors()).size().value(), 1e-9);
    }

    /** Law: at C = 180 the two errors count twice each, their uncertainties likewise, along the miss. */
    @Test
    void theUncertaintyOfTheOffsetsReachesTheTip() {
        Estimate x = change("swivel-axis-to-spindle");
        Estimate y = change("swivel-axis-to-spindle-y");
        double e_mm = Math.hypot(x.value(), y.value());
        double expected_mm = 2 * Math.hypot(x.value() / e_mm * x.stdU(), y.value() / e_mm * y.stdU());
        TipError halfTurn = effect.errors().stream()
                .filter(error -> error.pose().get("C") == 180)
                .findFirst()
                .orElseThrow();
        assertEquals(expected_mm, halfTurn.size().combined().stdU(), 1e-6);
        assertTrue(halfTurn.isSignificant());
    }

    @Test
    void onlyMeasuredOffsetsOfTheChainComeIn() {
        assertEquals(List.of("swivel-axis-to-spindle", "swivel-axis-to-spindle-y"), effect.counted());
        assertEquals("C", effect.mattersMost().axis());
    }
}

package sweepbook.cli.book;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.Random;
import java.util.stream.DoubleStream;
import org.junit.jupiter.api.Test;
import sweepbook.analysis.offset.EntryUnit;
import sweepbook.analysis.uncertainty.Estimate;
import sweepbook.cli.book.History.Point;
import sweepbook.cli.book.History.Series;

class HistoryTest {
    private static final double STD_U_MM = 0.002;

    private static Series series(double... values_mm) {
        List<Point> points = new ArrayList<>();
        for (int i = 0; i < values_mm.length; i++) {
            Estimate entry = new Estimate(values_mm[i], STD_U_MM, Double.POSITIVE_INFINITY);
            points.add(new Point("book " + i, 86_400.0 * i, BigDecimal.TEN, entry));
        }
        return new Series("swivel-axis-to-spindle", "Swivel axis to spindle", EntryUnit.MM, points, List.of());
    }

    private static Optional<String> movedSince(Series series, int point) {
        return series.movedSince(point).map(Point::book);
    }

    @Test
    void aJumpIsDatedToTheBookBeforeIt() {
        Series series = series(10.000, 10.001, 10.020, 10.021);
        assertTrue(series.step(2).orElseThrow().isSignificant());
        assertFalse(series.step(3).orElseThrow().isSignificant());
        assertEquals(Optional.of("book 1"), movedSince(series, 2));
        assertEquals(Optional.of("book 1"), movedSince(series, 3));
    }

    /** No step is more than chance, the sum of them is. */
    @Test
    void aSlowDriftIsFoundThoughNoStepIs() {
        Series series = series(10.000, 10.003, 10.006, 10.009);
        for (int i = 1; i < 4; i++) {
            assertFalse(series.step(i).orElseThrow().isSignificant(), "step " + i);
        }
        assertEquals(Optional.empty(), movedSince(series, 2));
        assertEquals(Optional.of("book 0"), movedSince(series, 3));
    }

    @Test
    void theFirstBookHasNothingToBeHeldAgainst() {
        Series series = series(10.000);
        assertEquals(Optional.empty(), series.step(0));
        assertEquals(Optional.empty(), series.movedSince(0));
    }

    /**
     * Simulated truth: where nothing moves, a move is claimed in at most 5 % of the histories however many books there
     * are; the pairs share a book, so that it is somewhat less.
     */
    @Test
    void nothingMovesByChanceInMoreThanOneOfTwenty() {
        int histories = 4000;
        Random random = new Random(20260302);
        int claimed = 0;
        for (int i = 0; i < histories; i++) {
            double[] values_mm = DoubleStream.generate(() -> STD_U_MM * random.nextGaussian())
                    .limit(8)
                    .toArray();
            claimed += series(values_mm).movedSince(7).isPresent() ? 1 : 0;
        }
        double rate = claimed / (double) histories;
        assertTrue(rate > 0.015 && rate < 0.055, "claimed in " + rate + " of the histories, seed 20260302");
    }
}

package sweepbook.cli.report;

import static org.junit.jupiter.api.Assertions.assertEquals;

import org.junit.jupiter.api.Test;
import sweepbook.acquisition.trace.LengthUnit;
import sweepbook.analysis.offset.EntryUnit;
import sweepbook.analysis.uncertainty.Estimate;
import sweepbook.analysis.uncertainty.Finding;

class FiguresTest {
    /** An estimate of infinite degrees of freedom with this U95; 1.959964 is the normal quantile. */
    private static Estimate within(double value, double u95) {
        return new Estimate(value, u95 / 1.959964, Double.POSITIVE_INFINITY);
    }

    private static String spaced(String text) {
        return text.replace('\u00a0', ' ');
    }

    private static String withU95(double value, double u95, LengthUnit unit) {
        return spaced(Figures.withU95(within(value, u95), unit));
    }

    /** Published: JCGM 100:2008, 7.2.6, 10.057 62 ohm with 27 milliohm is given as 10.058 ohm. */
    @Test
    void asManyDecimalsAsTwoDigitsOfTheUncertainty() {
        assertEquals("10.058 \u00b1 0.027 mm", withU95(10.05762, 0.027, LengthUnit.MM));
    }

    @Test
    void uncertaintyThatRoundsUpToTheNextPower() {
        assertEquals("1.23 \u00b1 0.10 mm", withU95(1.2345, 0.0996, LengthUnit.MM));
    }

    @Test
    void inchesFromMillimetres() {
        assertEquals("0.50000 \u00b1 0.00010 in", withU95(12.7, 0.00254, LengthUnit.IN));
    }

    @Test
    void nothingIsEverMinusZero() {
        assertEquals("0.000 \u00b1 0.012 mm", withU95(-0.0001, 0.012, LengthUnit.MM));
        assertEquals("0 mm", spaced(Figures.length(-1e-9, LengthUnit.MM)));
    }

    @Test
    void aHugeUncertaintyHasNoDecimals() {
        assertEquals("1 \u00b1 123 mm", withU95(1.2, 123.4, LengthUnit.MM));
    }

    @Test
    void whatIsNotDeterminedSaysWhy() {
        assertEquals(
                "not determined: sweep again", Figures.withU95(Finding.notDetermined("sweep again"), LengthUnit.MM));
    }

    @Test
    void whatIsNoFiniteNumberShowsAsSuch() {
        assertEquals("? mm", spaced(Figures.length(Double.NaN, LengthUnit.MM)));
        Estimate unbounded = new Estimate(1, Double.POSITIVE_INFINITY, 3);
        assertEquals("1.0000 \u00b1 \u221e mm", spaced(Figures.withU95(unbounded, LengthUnit.MM)));
    }

    @Test
    void smallPartsInTheUnitOfTheTrade() {
        assertEquals("1.250 \u00b5m", spaced(Figures.small(0.00125, EntryUnit.MM)));
        assertEquals("0.100 thou", spaced(Figures.small(0.00254, EntryUnit.IN)));
    }
}

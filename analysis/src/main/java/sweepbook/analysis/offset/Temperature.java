package sweepbook.analysis.offset;

import java.util.List;
import sweepbook.analysis.uncertainty.BudgetLine;
import sweepbook.analysis.uncertainty.Estimate;

/**
 * Takes a length measured off 20 degrees C to 20 degrees C (ISO 1) by the model of JCGM 100:2008, H.1: length times (1 -
 * (difference of expansion x excess + expansion x difference of temperature)), both differences being part less
 * machine scale.
 *
 * @param excess_K temperature of the part less 20 degrees C
 * @param scaleExpansion_per_K expansion coefficient of the machine's scale
 * @param expansionDifference_per_K expansion coefficient of the part less that of the scale
 * @param temperatureDifference_K temperature of the part less that of the scale
 */
public record Temperature(
        Estimate excess_K,
        Estimate scaleExpansion_per_K,
        Estimate expansionDifference_per_K,
        Estimate temperatureDifference_K) {

    /** The length at 20 degrees C. */
    public double correct_mm(double length_mm) {
        return length_mm
                * (1
                        - expansionDifference_per_K.value() * excess_K.value()
                        - scaleExpansion_per_K.value() * temperatureDifference_K.value());
    }

    /** What the four inputs add to the uncertainty of the corrected length. */
    public List<BudgetLine> lines(double length_mm) {
        String measure = "let part and machine stand until they have one temperature; measure it";
        return List.of(
                BudgetLine.of(
                                "temperature off 20 degrees C",
                                excess_K,
                                -length_mm * expansionDifference_per_K.value(),
                                measure)
                        .in("K"),
                BudgetLine.of(
                                "expansion of the machine's scale",
                                scaleExpansion_per_K,
                                -length_mm * temperatureDifference_K.value(),
                                measure)
                        .in("/K"),
                BudgetLine.of(
                                "expansion of part against scale",
                                expansionDifference_per_K,
                                -length_mm * excess_K.value(),
                                "work nearer to 20 degrees C")
                        .in("/K"),
                BudgetLine.of(
                                "temperature of part against scale",
                                temperatureDifference_K,
                                -length_mm * scaleExpansion_per_K.value(),
                                measure)
                        .in("K"));
    }
}

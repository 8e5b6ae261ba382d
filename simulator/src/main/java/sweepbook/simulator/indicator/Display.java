package sweepbook.simulator.indicator;

import sweepbook.acquisition.trace.LengthUnit;

/**
 * What the indicator shows: whole steps of a unit.
 *
 * @param stepsPerUnit steps in one millimetre or one inch
 */
public record Display(LengthUnit unit, int stepsPerUnit) {
    public double resolution_mm() {
        return unit.toMm(1.0 / stepsPerUnit);
    }

    /** A length as shown: the nearest step, exactly the number that its decimals spell. */
    public double shown_mm(double length_mm) {
        // A whole number divided by a whole number is the double nearest to the decimal that the wire carries.
        return unit.toMm(Math.rint(unit.fromMm(length_mm) * stepsPerUnit) / stepsPerUnit + 0.0);
    }
}

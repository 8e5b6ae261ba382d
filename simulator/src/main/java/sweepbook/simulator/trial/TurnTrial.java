package sweepbook.simulator.trial;

import java.util.List;
import sweepbook.acquisition.trace.Trace;

/**
 * A turned part of which the truth is known. Pressing raises the reading.
 *
 * @param seed makes the same trial again, with the kind
 * @param trace what was recorded, with its marks or angles
 * @param marksPerTurn 0 where there are none
 * @param noise_mm standard deviation of a single reading before rounding
 * @param turns how far the part turned forward while it was recorded, in turns
 * @param fim_mm full indicator movement of a turn, without noise and drift
 * @param eccentricity_mm of the part from the axis of turning
 * @param highSpotAngle_deg from the first mark in the direction of turning; NaN without marks or angles
 * @param outOfRoundness_mm peak to valley about the least-squares circle, unfiltered
 * @param outOfRoundnessBound_mm least standard deviation of an unbiased estimate of it, the motion known no better than a
 *     hand's or a spindle's can be; infinite where stations are too few for the part's undulations
 * @param form undulations from two a turn on, counted from the first mark (without marks: from anywhere)
 * @param eccentricityBound_mm least standard deviation of an unbiased estimate when every angle is known (Cramer-Rao)
 * @param markStdU_deg least standard deviation with which the readings' spacing lets the marks be placed, in a hand's
 *     motion that is known or at a spindle's speed that the readings tell; 0 without marks
 */
public record TurnTrial(
        TurnKind kind,
        long seed,
        Trace trace,
        int marksPerTurn,
        double noise_mm,
        double turns,
        double fim_mm,
        double eccentricity_mm,
        double highSpotAngle_deg,
        double outOfRoundness_mm,
        double outOfRoundnessBound_mm,
        List<Harmonic> form,
        double eccentricityBound_mm,
        double markStdU_deg) {
    public TurnTrial {
        form = List.copyOf(form);
    }

    /**
     * The least standard deviation of the angle of the high spot from the first mark: that of the readings beside that of
     * the marks, which are told only to the nearest reading.
     */
    public double highSpotAngleBound_deg() {
        return Math.hypot(readingsAngleBound_deg(), markStdU_deg);
    }

    /** The bound of the angle by the readings alone, were the passing of every mark known exactly. */
    public double readingsAngleBound_deg() {
        return Math.toDegrees(eccentricityBound_mm / eccentricity_mm);
    }
}

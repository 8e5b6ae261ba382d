package sweepbook.analysis.offset;

import sweepbook.analysis.sweep.Pressing;
import sweepbook.analysis.uncertainty.Estimate;

/**
 * One axis of a workshop in which bodies push each other: the head stands at the shown position, whatever it carries
 * stands at its own place from there, the table stands still. It knows nothing of the arithmetic under test: it jogs
 * until the contact is pressed as deep as wanted, by bisection on "may not penetrate".
 */
final class WorkshopAxis {
    /** Sense of the indicator: +1 if its reading grows when its contact is pushed towards plus of the axis. */
    record Gauge(Stand stand, int sense, double freePlace_mm, double contactRadius_mm, double readingWhenFree_mm) {}

    private final Gauge gauge;

    WorkshopAxis(Gauge gauge) {
        this.gauge = gauge;
    }

    /**
     * Jogs in one direction until the contact is pressed in, and notes what machine and indicator show.
     *
     * @param place_mm the feature's centre or surface in what carries it
     * @param trueRadius_mm its radius, 0 for a flat
     * @param feature as the technician states it
     */
    Touch touch(Feature feature, double place_mm, double trueRadius_mm, Direction direction, double depth_mm) {
        boolean carried = gauge.stand() == Stand.ON_TABLE;
        double reach_mm = trueRadius_mm + gauge.contactRadius_mm();
        // Far enough out that they are clear, and far enough in that the centre is past the free contact.
        double meeting_mm = carried ? gauge.freePlace_mm() - place_mm : place_mm - gauge.freePlace_mm();
        double clear_mm = meeting_mm - direction.sign() * (reach_mm + 1);
        double deep_mm = meeting_mm + direction.sign() * (depth_mm + 1);
        // Seen along the axis, the feature lies ahead of the contact (+1) or behind it (-1) when they are clear.
        double apart_mm =
                carried ? clear_mm + place_mm - gauge.freePlace_mm() : place_mm - (clear_mm + gauge.freePlace_mm());
        int featureSide = (int) Math.signum(apart_mm);
        for (int i = 0; i < 200; i++) {
            double tried_mm = (clear_mm + deep_mm) / 2;
            if (Math.abs(pushed(tried_mm, place_mm, reach_mm, featureSide)) < depth_mm) {
                clear_mm = tried_mm;
            } else {
                deep_mm = tried_mm;
            }
        }
        double pushed_mm = pushed(deep_mm, place_mm, reach_mm, featureSide);
        double reading_mm = gauge.readingWhenFree_mm() + gauge.sense() * pushed_mm;
        Pressing seen = reading_mm > gauge.readingWhenFree_mm() ? Pressing.RAISES : Pressing.LOWERS;
        return new Touch(feature, new Approach(direction, seen, gauge.stand()), deep_mm, Estimate.exact(reading_mm), 0);
    }

    /** By how much the contact is pushed off its free place, along the axis, when the machine shows this position. */
    private double pushed(double position_mm, double place_mm, double reach_mm, int featureSide) {
        double feature_mm = gauge.stand() == Stand.ON_TABLE ? position_mm + place_mm : place_mm;
        double free_mm = gauge.stand() == Stand.ON_TABLE ? gauge.freePlace_mm() : position_mm + gauge.freePlace_mm();
        double nearest_mm = feature_mm - featureSide * reach_mm;
        boolean clear = featureSide > 0 ? free_mm <= nearest_mm : free_mm >= nearest_mm;
        return clear ? 0 : nearest_mm - free_mm;
    }
}

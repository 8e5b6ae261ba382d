package sweepbook.analysis.offset;

import sweepbook.analysis.uncertainty.Estimate;

/** What is touched. Two touches are of the same feature when name and radius agree. */
public sealed interface Feature {
    String name();

    /** Distance from the touched surface to the place that counts, in millimetres: 0 for a flat face. */
    Estimate radius();

    /** A shaft, pin or ball; its place is its centre. */
    record Round(String name, Estimate radius) implements Feature {
        public Round {
            if (!(radius.value() > 0)) {
                throw new IllegalArgumentException(
                        "the radius of " + name + " must be above 0 mm, not " + radius.value());
            }
        }
    }

    /** A face at right angles to the measured axis; its place is its surface. */
    record Flat(String name) implements Feature {
        @Override
        public Estimate radius() {
            return Estimate.exact(0);
        }
    }
}

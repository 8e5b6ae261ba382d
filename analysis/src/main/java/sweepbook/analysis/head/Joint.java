package sweepbook.analysis.head;

/** One step along a chain, from the machine's frame outwards to the tool or to the part. */
public sealed interface Joint {
    /** The axis along or about which the step goes, as a direction at the machine's zero. */
    double x();

    double y();

    double z();

    /**
     * A length of the geometry table, along a direction that the joints before it turn.
     *
     * @param entry name of the table entry, in millimetres
     */
    record Length(String entry, double x, double y, double z) implements Joint {
        public Length {
            checkDirection(x, y, z);
        }
    }

    /**
     * A rotary axis: turns all that follows it, in the right-handed sense about its direction, by what it shows less its
     * reference angle.
     *
     * @param axis by which the machine calls it
     * @param reference name of the table entry for what it shows when it truly stands at zero, in degrees
     */
    record Rotary(String axis, String reference, double x, double y, double z) implements Joint {
        public Rotary {
            checkDirection(x, y, z);
        }
    }

    /**
     * A linear axis within the chain: moves all that follows it by what it shows.
     *
     * @param axis by which the machine calls it
     */
    record Linear(String axis, double x, double y, double z) implements Joint {
        public Linear {
            checkDirection(x, y, z);
        }
    }

    private static void checkDirection(double x, double y, double z) {
        double length = Math.hypot(Math.hypot(x, y), z);
        if (!(Math.abs(length - 1) < 1e-9)) {
            throw new IllegalArgumentException("a direction must be 1 long, not " + length);
        }
    }
}

package sweepbook.simulator.machine;

/** What holds a feature or an indicator: the table, which stands still, or the head, which goes with the axes. */
public interface Carrier {
    Carrier TABLE = new Carrier() {
        @Override
        public Vec3 place(Vec3 held, Pose pose) {
            return held;
        }

        @Override
        public Vec3 direction(Vec3 held, Pose pose) {
            return held;
        }
    };

    /** Where a held place is in the machine's frame. */
    Vec3 place(Vec3 held, Pose pose);

    /** Where a held direction points in the machine's frame. */
    Vec3 direction(Vec3 held, Pose pose);
}

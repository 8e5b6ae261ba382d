package sweepbook.simulator.machine;

/** How one axis travels: distance from where it started, as a function of time. */
public interface Course {
    double duration_s();

    /** Travel so far, in millimetres or degrees; zero at zero, the whole travel at {@link #duration_s()}. */
    double travel(double since_s);

    /** The whole travel, signed. */
    default double travel() {
        return travel(duration_s());
    }
}

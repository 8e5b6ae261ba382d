package sweepbook.simulator.machine;

/** The axes of the gantry and its head, named after ISO 841: C swivels about the vertical, A tilts about X. */
public enum Axis {
    X,
    Y,
    Z,
    A,
    C
}

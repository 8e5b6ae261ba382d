package sweepbook.cli.plan;

/** Linear axes of a machine (ISO 841). */
public enum Axis {
    X,
    Y,
    Z
}

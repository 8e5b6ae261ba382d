package sweepbook.analysis.head;

/** A place or a difference of places, in millimetres along X, Y and Z (ISO 841). */
public record Place(double x_mm, double y_mm, double z_mm) {
    public static final Place ORIGIN = new Place(0, 0, 0);

    public double size_mm() {
        return Math.hypot(Math.hypot(x_mm, y_mm), z_mm);
    }

    public Place minus(Place other) {
        return new Place(x_mm - other.x_mm, y_mm - other.y_mm, z_mm - other.z_mm);
    }
}

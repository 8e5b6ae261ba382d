package sweepbook.cli.report;

/** How a line is drawn: apart in black and white by width and dash, on a screen by colour too. */
enum Ink {
    /** The measured thing itself. */
    TRACE("#22303c", 1.1, "none", "#e4e9ed"),
    /** The result that a picture is about. */
    FIRST("#14587f", 2, "none", "#c3d9e8"),
    /** The result that stands beside it. */
    SECOND("#8a4b14", 2, "7 4", "#f0dcc6"),
    THIRD("#4d6b2f", 2, "2 3", "#dde6cf"),
    /** Grid, borders, leaders. */
    FAINT("#7b8791", 0.8, "1 3", "#f4f6f8");

    private final String colour;
    private final double width_px;
    private final String dash;
    private final String tint;

    Ink(String colour, double width_px, String dash, String tint) {
        this.colour = colour;
        this.width_px = width_px;
        this.dash = dash;
        this.tint = tint;
    }

    String colour() {
        return colour;
    }

    /** For areas that go with the line. */
    String tint() {
        return tint;
    }

    /** The attributes that a stroked element takes. */
    Object[] stroke(Object... more) {
        Object[] all = new Object[8 + more.length];
        Object[] own = {"fill", "none", "stroke", colour, "stroke-width", width_px, "stroke-dasharray", dash};
        System.arraycopy(own, 0, all, 0, 8);
        System.arraycopy(more, 0, all, 8, more.length);
        return all;
    }
}

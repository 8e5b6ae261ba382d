package sweepbook.cli.report;

import java.math.BigDecimal;
import sweepbook.analysis.runout.RunoutSettings;
import sweepbook.analysis.runout.circle.ReferenceCircle;

/** What the contact rides on; the figures are the same, their names are not. */
public enum Surface {
    /** A shaft, arbor or bore: the contact points to the axis. */
    ROUND("full indicator movement", "eccentricity", "its high spot", "Departure from the least-squares circle"),
    /** The face of a flange, disc or blade: the contact points along the axis. */
    FACE("axial runout", "wobble", "its high spot", "Departure from the plane that the face leans by");

    private final String movement;
    private final String first;
    private final String highSpot;
    private final String departure;

    Surface(String movement, String first, String highSpot, String departure) {
        this.movement = movement;
        this.first = first;
        this.highSpot = highSpot;
        this.departure = departure;
    }

    /** Greatest less least reading of a turn. */
    public String movement() {
        return movement;
    }

    /** The first harmonic. */
    public String first() {
        return first;
    }

    public String highSpot() {
        return highSpot;
    }

    /** What a polar picture shows. */
    public String departure() {
        return departure;
    }

    /** Whether a figure about that circle means anything here: a face has one mean plane and no circles. */
    public boolean has(ReferenceCircle circle) {
        return this == ROUND || circle == ReferenceCircle.LEAST_SQUARES;
    }

    /** What is left of the form about a circle; of a face its wave, from two a turn on. */
    public String form(ReferenceCircle circle) {
        return this == ROUND ? "out-of-roundness " + circle.letters() : "wave of the face";
    }

    private static String cutoff(RunoutSettings settings) {
        return BigDecimal.valueOf(settings.cutoff_upr()).stripTrailingZeros().toPlainString();
    }

    /** How the form was had. */
    public String method(RunoutSettings settings) {
        String filter = "Gaussian filter " + cutoff(settings) + " UPR";
        return this == ROUND
                ? settings.circle().letters() + " (" + settings.circle().words() + "), " + filter
                : "peak to valley from 2 UPR on, " + filter;
    }
}

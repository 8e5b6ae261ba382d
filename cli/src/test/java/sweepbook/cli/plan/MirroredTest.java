package sweepbook.cli.plan;

import static org.junit.jupiter.api.Assertions.assertEquals;

import com.fasterxml.jackson.databind.JsonNode;
import java.util.ArrayList;
import java.util.List;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.junit.jupiter.api.Test;

/**
 * Law: a head with B turns (x, y, z) to (x cos B + z sin B, y, z cos B - x sin B) before C swivels it (ISO 841); at the poses
 * that the mirrored plans ask for, half the difference of the two places must be what the plan looks for.
 */
class MirroredTest {
    private static final double TILT_X = 0.3; // from the swivel axis to the tilt axis
    private static final double SPINDLE_X = -0.4; // from the tilt axis to the spindle
    private static final double DOWN = 240;
    private static final Pattern SWIVEL = Pattern.compile("swivel C to (-?\\d+)");
    private static final Pattern TILT = Pattern.compile("tilt B to (-?\\d+)");

    private record Place(double x, double z, double looksToX) {}

    /** Where the spindle's end is, and along X where it looks to. */
    private static Place end(JsonNode touch) {
        double b_rad = Math.toRadians(angle_deg(TILT, touch));
        double c = Math.cos(Math.toRadians(angle_deg(SWIVEL, touch)));
        double x = TILT_X + SPINDLE_X * Math.cos(b_rad) - DOWN * Math.sin(b_rad);
        return new Place(c * x, -DOWN * Math.cos(b_rad) - SPINDLE_X * Math.sin(b_rad), -c * Math.sin(b_rad));
    }

    private static double angle_deg(Pattern pattern, JsonNode touch) {
        Matcher told = pattern.matcher(touch.get("setUp").asText());
        if (!told.find()) {
            throw new AssertionError(touch);
        }
        return Double.parseDouble(told.group(1));
    }

    private static List<Place> places(String part) {
        List<Place> places = new ArrayList<>();
        JsonNode offset = Mirrored.aboutB(PlanParts.part(part)).get("offsets").get(0);
        offset.get("touches").forEach(touch -> places.add(end(touch)));
        return places;
    }

    @Test
    void swivelAxisToTiltAxisLiesAlongX() {
        List<Place> places = places("swivel-axis-to-tilt-axis");
        assertEquals(TILT_X, (places.get(0).x() - places.get(1).x()) / 2, 1e-9);
        assertEquals(1, places.get(0).looksToX(), 1e-9);
        assertEquals(1, places.get(1).looksToX(), 1e-9);
    }

    @Test
    void tiltAxisToSpindleLiesAlongX() {
        List<Place> places = places("tilt-axis-to-spindle");
        assertEquals(SPINDLE_X, (places.get(0).z() - places.get(1).z()) / 2, 1e-9);
        assertEquals("Tilt axis to spindle, along X", title("tilt-axis-to-spindle"));
    }

    private static String title(String part) {
        return Mirrored.aboutB(PlanParts.part(part))
                .get("offsets")
                .get(0)
                .get("title")
                .asText();
    }
}

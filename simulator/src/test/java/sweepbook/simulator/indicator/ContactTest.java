package sweepbook.simulator.indicator;

import static org.junit.jupiter.api.Assertions.assertEquals;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import sweepbook.simulator.machine.Axis;
import sweepbook.simulator.machine.Carrier;
import sweepbook.simulator.machine.Feature;
import sweepbook.simulator.machine.Head;
import sweepbook.simulator.machine.Pose;
import sweepbook.simulator.machine.Shape.Face;
import sweepbook.simulator.machine.Shape.Pin;
import sweepbook.simulator.machine.Vec3;

class ContactTest {
    private static final Vec3 UP = new Vec3(0, 0, 1);

    /**
     * Published: the fall off the crest as a handbook of the trade tabulates it, R - sqrt(R^2 - s^2), in micrometres with four
     * decimals; a sharp contact, so that the radius is the pin's alone.
     */
    @ParameterizedTest(name = "radius {0} mm")
    @CsvSource({
        "5,    1.0001, 6.2539, 25.0628, 101.0205, 417.4243",
        "10,   0.5000, 3.1255, 12.5078, 50.1256,  202.0410",
        "12.7, 0.3937, 2.4609, 9.8463,  39.4313,  158.4690",
        "25,   0.2000, 1.2500, 5.0005,  20.0080,  80.1284",
        "50,   0.1000, 0.6250, 2.5001,  10.0010,  40.0160"
    })
    void aPinFallsOffItsCrestAsTabulated(
            double radius_mm, double at0_1, double at0_25, double at0_5, double at1, double at2) {
        Feature pin = new Feature("pin", new Head(Vec3.ORIGIN), new Pin(new Vec3(0, 0, -10), UP, 20, radius_mm));
        Contact sharp = new Contact(Carrier.TABLE, new Vec3(radius_mm - 1, 0, 0), new Vec3(1, 0, 0), 0, 5);
        double crest_mm = sharp.press_mm(pin, Pose.HOME);
        assertEquals(1, crest_mm, 1e-12);
        double[] s_mm = {0.1, 0.25, 0.5, 1, 2};
        double[] tabulated_um = {at0_1, at0_25, at0_5, at1, at2};
        for (int i = 0; i < s_mm.length; i++) {
            double press_mm = sharp.press_mm(pin, Pose.HOME.with(Axis.Y, s_mm[i]));
            assertEquals(tabulated_um[i], (crest_mm - press_mm) * 1000, 0.00005, "at " + s_mm[i] + " mm");
        }
    }

    /** Published: true movement = reading * cos(angle); a handbook's factors to four decimals (common practice). */
    @ParameterizedTest
    @CsvSource({"5, 0.9962", "10, 0.9848", "15, 0.9659", "30, 0.8660", "45, 0.7071"})
    void aTiltedPlungerReadsTooMuchByTheCosine(double tilt_deg, double factor) {
        Feature face = new Feature("face", new Head(Vec3.ORIGIN), new Face(Vec3.ORIGIN, new Vec3(1, 0, 0), 50));
        Vec3 tilted = new Vec3(1, 0, 0).aboutZ(tilt_deg);
        Contact contact = new Contact(Carrier.TABLE, new Vec3(1.5, 0, 0), tilted, 1.5, 20);
        double moved_mm = 0.5;
        double reading_mm = contact.press_mm(face, Pose.HOME.with(Axis.X, 1 + moved_mm))
                - contact.press_mm(face, Pose.HOME.with(Axis.X, 1));
        assertEquals(factor, moved_mm / reading_mm, 0.00005);
    }

    @Test
    void aFeatureThatDoesNotReachLeavesThePlungerFree() {
        Feature pin = new Feature("pin", new Head(Vec3.ORIGIN), new Pin(new Vec3(0, 0, -10), UP, 20, 10));
        Contact contact = new Contact(Carrier.TABLE, new Vec3(11, 0, 0), new Vec3(1, 0, 0), 1.5, 5);
        assertEquals(0.5, contact.press_mm(pin, Pose.HOME), 1e-12);
        assertEquals(0, contact.press_mm(pin, Pose.HOME.with(Axis.X, -1)), "short of the contact");
        assertEquals(0, contact.press_mm(pin, Pose.HOME.with(Axis.Y, 12)), "beside it");
        assertEquals(0, contact.press_mm(pin, Pose.HOME.with(Axis.Z, 15)), "above it");
        assertEquals(0, contact.press_mm(pin, Pose.HOME.with(Axis.X, 30)), "beyond it");
    }
}

package sweepbook.analysis.head;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.DoubleRange;
import org.junit.jupiter.api.Test;
import sweepbook.analysis.head.TipErrors.TipError;
import sweepbook.analysis.uncertainty.Estimate;

class KinematicsTest {
    private static final Kinematics HEAD = Kinematics.SWIVEL_AND_TILT_HEAD;
    private static final Map<String, Double> LENGTHS = Map.of(
            "swivel-zero", 0.0,
            "swivel-axis-to-tilt-axis", 30.0,
            "swivel-axis-to-spindle", 4.0,
            "tilt-zero", 0.0,
            "tilt-axis-to-spindle", -3.0,
            "tilt-axis-to-gauge-face", 200.0,
            "tool-length", 80.0);
    private static final GeometryTable TABLE = GeometryTable.exact(LENGTHS);

    /** A trunnion: the part tilts (A) and turns (C) on it, in the sense of primed axes; the tool stands upright. */
    private static final Kinematics TILTING_TABLE = new Kinematics(
            List.of(new Joint.Length("tool-length", 0, 0, -1)),
            List.of(
                    new Joint.Length("table-height", 0, 0, 1),
                    new Joint.Rotary("A", "tilt-zero", -1, 0, 0),
                    new Joint.Length("tilt-axis-to-plate", 0, 0, 1),
                    new Joint.Rotary("C", "swivel-zero", 0, 0, -1)));

    private static Map<String, Double> pose(double c_deg, double a_deg) {
        return Map.of("C", c_deg, "A", a_deg);
    }

    private static void assertPlace(double x, double y, double z, Place place) {
        assertEquals(x, place.x_mm(), 1e-9);
        assertEquals(y, place.y_mm(), 1e-9);
        assertEquals(z, place.z_mm(), 1e-9);
    }

    /** Law: quarter turns can be laid by hand. */
    @Test
    void quarterTurnsOfTheHead() {
        assertPlace(4, 27, -280, HEAD.tip(TABLE, pose(0, 0)));
        // A turns Y to Z, so the tool that pointed down points to plus Y.
        assertPlace(4, 30 + 280, -3, HEAD.tip(TABLE, pose(0, 90)));
        // C turns X to Y.
        assertPlace(-27, 4, -280, HEAD.tip(TABLE, pose(90, 0)));
        assertPlace(-4, -27, -280, HEAD.tip(TABLE, pose(180, 0)));
        assertPlace(-310, 4, -3, HEAD.tip(TABLE, pose(90, 90)));
    }

    /** Simulated truth: the same head written out with sines and cosines. */
    @Property(tries = 200)
    void anyPoseOfTheHeadAsWrittenOut(
            @ForAll @DoubleRange(min = -200, max = 200) double c_deg,
            @ForAll @DoubleRange(min = -100, max = 100) double a_deg,
            @ForAll @DoubleRange(min = -2, max = 2) double c0_deg,
            @ForAll @DoubleRange(min = -2, max = 2) double a0_deg) {
        Map<String, Double> lengths = new HashMap<>(LENGTHS);
        lengths.put("swivel-zero", c0_deg);
        lengths.put("tilt-zero", a0_deg);
        double a = Math.toRadians(a_deg - a0_deg);
        double c = Math.toRadians(c_deg - c0_deg);
        double y = 30 - 3 * Math.cos(a) + 280 * Math.sin(a);
        double z = -3 * Math.sin(a) - 280 * Math.cos(a);
        assertPlace(
                4 * Math.cos(c) - y * Math.sin(c),
                4 * Math.sin(c) + y * Math.cos(c),
                z,
                HEAD.tip(GeometryTable.exact(lengths), pose(c_deg, a_deg)));
    }

    /** Law: a drill unit beside the spindle is the same head with a few steps more. */
    @Test
    void aSecondUnitIsMoreDescription() {
        Kinematics drill =
                HEAD.withTool(List.of(new Joint.Length("spindle-to-drill", 1, 0, 0), new Joint.Linear("W", 0, 0, -1)));
        Map<String, Double> pose = new HashMap<>(pose(90, 0));
        pose.put("W", 25.0);
        assertPlace(-27, 64, -305, drill.tip(TABLE.with("spindle-to-drill", Estimate.exact(60)), pose));
    }

    /** Law: a head that tilts about Y is one more description. */
    @Test
    void aHeadWithB() {
        Kinematics b = new Kinematics(
                List.of(
                        new Joint.Rotary("B", "tilt-zero", 0, 1, 0),
                        new Joint.Length("tilt-axis-to-gauge-face", 0, 0, -1)),
                List.of());
        // B turns Z to X: what pointed down points to minus X.
        assertPlace(-200, 0, 0, b.tip(TABLE, Map.of("B", 90.0)));
    }

    /** Law: at A = 90 a face that lies 0.1 further out moves the tip by 0.1 along Y, and by nothing else. */
    @Test
    void anEntryThatIsWrongMovesTheTip() {
        GeometryTable after = TABLE.with("tilt-axis-to-gauge-face", new Estimate(200.1, 0.002, 20));
        TipErrors errors = new TipErrors(HEAD, TABLE, after);
        TipError tilted = errors.at(List.of(pose(0, 90))).get(0);
        assertPlace(0, 0.1, 0, tilted.miss());
        assertEquals(0.002, tilted.size().combined().stdU(), 1e-9);
        assertEquals(20, tilted.size().combined().degreesOfFreedom(), 1e-9);
        assertTrue(tilted.isSignificant());
        assertEquals(0, tilted.lean_deg(), 1e-9);
    }

    /** Law: a part touched off with the tool upright hides the error there, and shows it when the head tilts. */
    @Test
    void touchingOffHidesTheErrorWhereItWasDone() {
        GeometryTable after = TABLE.with("tilt-axis-to-gauge-face", new Estimate(200.1, 0.002, 20));
        TipErrors errors = new TipErrors(HEAD, TABLE, after, Place.ORIGIN, Optional.of(pose(0, 0)));
        List<TipError> grid =
                errors.at(TipErrors.grid(Map.of("C", new double[] {0, 90}, "A", new double[] {0, 45, 90})));
        assertEquals(6, grid.size());
        TipError upright = grid.get(0);
        assertEquals(0, upright.size().value(), 1e-12);
        assertFalse(upright.isSignificant());
        TipError worst = TipErrors.worst(grid);
        assertEquals(90, worst.pose().get("A"));
        assertEquals(0.1 * Math.sqrt(2), worst.size().value(), 1e-9);
        // 2 * (0 + (2 - sqrt 2) + 2) / 6 squared tenths
        assertEquals(0.1 * Math.sqrt((4 - Math.sqrt(2)) / 3), TipErrors.typical_mm(grid), 1e-9);
    }

    /** Law: two entries wrong at right angles; each counts by its part of the miss, 3 : 4 : 5. */
    @Test
    void eachEntryCountsByItsPartOfTheMiss() {
        GeometryTable after = TABLE.with("swivel-axis-to-spindle", new Estimate(4.03, 0.001, 9))
                .with("swivel-axis-to-tilt-axis", new Estimate(30.04, 0.002, 9));
        TipError error =
                new TipErrors(HEAD, TABLE, after).at(List.of(pose(0, 0))).get(0);
        assertPlace(0.03, 0.04, 0, error.miss());
        assertEquals(
                Math.hypot(0.6 * 0.001, 0.8 * 0.002), error.size().combined().stdU(), 1e-9);
    }

    /** Law: a wrong zero of the tilt leans the tool by that much at every pose. */
    @Test
    void aWrongReferenceAngleLeansTheTool() {
        TipErrors errors = new TipErrors(HEAD, TABLE, TABLE.with("tilt-zero", new Estimate(0.02, 0.001, 9)));
        for (TipError error :
                errors.at(TipErrors.grid(Map.of("C", new double[] {0, 77}, "A", new double[] {-30, 60})))) {
            assertEquals(0.02, error.lean_deg(), 1e-6);
            assertEquals(
                    2 * Math.hypot(3, 280) * Math.sin(Math.toRadians(0.01)),
                    error.size().value(),
                    1e-9);
        }
    }

    /** Law: a plate that lies higher on its trunnion than believed is missed along the part's own Z, however it lies. */
    @Test
    void aTiltingTableIsAnotherDescription() {
        GeometryTable table = GeometryTable.exact(Map.of(
                "tool-length",
                100.0,
                "table-height",
                500.0,
                "tilt-zero",
                0.0,
                "tilt-axis-to-plate",
                60.0,
                "swivel-zero",
                0.0));
        GeometryTable after = table.with("tilt-axis-to-plate", Estimate.exact(60.1));
        TipErrors errors = new TipErrors(TILTING_TABLE, table, after, new Place(10, 20, 30), Optional.empty());
        List<TipError> found = errors.at(List.of(pose(0, 0), pose(0, 90), pose(123, 0)));
        for (TipError error : found) {
            // Seen from the part, the tip stands a tenth lower however the table lies.
            assertPlace(0, 0, -0.1, error.miss());
        }
        GeometryTable higher = table.with("table-height", Estimate.exact(500.1));
        TipErrors shifted = new TipErrors(TILTING_TABLE, table, higher, new Place(10, 20, 30), Optional.empty());
        assertPlace(0, 0, -0.1, shifted.at(List.of(pose(0, 0))).get(0).miss());
        // A' at 90 turns the part's plus Y down, so that a table that lies higher is a tip that lies towards plus Y.
        assertPlace(0, 0.1, 0, shifted.at(List.of(pose(0, 90))).get(0).miss());
    }

    @Test
    void whatIsMissingIsNamed() {
        assertThrows(IllegalArgumentException.class, () -> HEAD.tip(TABLE, Map.of("C", 0.0)));
        assertThrows(IllegalArgumentException.class, () -> HEAD.tip(GeometryTable.exact(Map.of()), pose(0, 0)));
        assertThrows(IllegalArgumentException.class, () -> new Joint.Length("x", 1, 1, 0));
        assertThrows(IllegalArgumentException.class, () -> new Joint.Rotary("C", "zero", 0, 0, 2));
        assertThrows(IllegalArgumentException.class, () -> new Joint.Linear("W", 0, 0, 0));
    }
}

package sweepbook.analysis.offset;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.function.DoubleUnaryOperator;
import net.jqwik.api.Arbitraries;
import net.jqwik.api.Arbitrary;
import net.jqwik.api.Combinators;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.Provide;
import net.jqwik.api.constraints.DoubleRange;
import net.jqwik.api.constraints.IntRange;
import net.jqwik.api.constraints.Scale;
import org.hipparchus.geometry.euclidean.threed.Rotation;
import org.hipparchus.geometry.euclidean.threed.RotationConvention;
import org.hipparchus.geometry.euclidean.threed.Vector3D;
import sweepbook.analysis.offset.Alignment.Station;
import sweepbook.analysis.offset.WorkshopAxis.Gauge;
import sweepbook.analysis.sweep.Pressing;
import sweepbook.analysis.uncertainty.Estimate;

/** Simulated truth: every measurement against geometry that knows nothing of its arithmetic. */
class MeasurementProperties {
    private static final double TOLERANCE_MM = 1e-8;
    private static final TouchConditions EXACT = new TouchConditions(
            new IndicatorLimits(0, 0, 0, 0, Estimate.exact(1), Estimate.exact(0)),
            new MachineLimits(0, 0),
            new Surroundings(0, Optional.empty()));
    private static final Feature PIN = new Feature.Round("pin", Estimate.exact(8));
    private static final Feature FACE = new Feature.Flat("face");

    @Provide
    Arbitrary<Gauge> gauges() {
        return Combinators.combine(
                        Arbitraries.of(Stand.values()),
                        Arbitraries.of(-1, 1),
                        Arbitraries.doubles().between(-900, 900),
                        Arbitraries.just(1.0),
                        Arbitraries.doubles().between(-3, 3))
                .as(Gauge::new);
    }

    private static Touch at(Touch touch, double time_s) {
        return new Touch(touch.feature(), touch.approach(), touch.position_mm(), touch.reading(), time_s);
    }

    /** The pin is turned as a point of the plane; the measured axis sees its shadow. */
    @Property(tries = 300)
    void touchesAtAnyThreeOrMoreAnglesFindTheAxis(
            @ForAll("gauges") Gauge gauge,
            @ForAll Direction direction,
            @ForAll @DoubleRange(min = -100, max = 100) double axis_mm,
            @ForAll @DoubleRange(min = -3, max = 3) double along_mm,
            @ForAll @DoubleRange(min = -3, max = 3) double across_mm,
            @ForAll @DoubleRange(min = -100, max = 0) double from_deg,
            @ForAll @DoubleRange(min = 15, max = 60) double step_deg,
            @ForAll @IntRange(min = 3, max = 8) int steps) {
        WorkshopAxis workshop = new WorkshopAxis(gauge);
        List<TurnedTouches.AtAngle> touches = new ArrayList<>();
        for (int i = 0; i < steps; i++) {
            double angle_deg = from_deg + i * step_deg;
            Vector3D turned = new Rotation(
                            Vector3D.PLUS_K, Math.toRadians(angle_deg), RotationConvention.VECTOR_OPERATOR)
                    .applyTo(new Vector3D(along_mm, across_mm, 0));
            touches.add(new TurnedTouches.AtAngle(
                    angle_deg, workshop.touch(PIN, axis_mm + turned.getX(), 8, direction, 0.3 + 0.1 * i)));
        }
        TurnedTouches measured = new TurnedTouches(touches);
        assertEquals(along_mm, measured.eccentricity(EXACT).value(), TOLERANCE_MM);
        assertEquals(across_mm, measured.eccentricityAcross(EXACT).value(), TOLERANCE_MM);
        Touch other = workshop.touch(FACE, 42, 0, direction, 0.2);
        assertEquals(42 - axis_mm, measured.fromAxisTo(other, EXACT).value(), TOLERANCE_MM);
    }

    @Property(tries = 200)
    void aReversalAlsoLocatesTheAxisAgainstAnotherFeature(
            @ForAll("gauges") Gauge gauge,
            @ForAll Direction direction,
            @ForAll @DoubleRange(min = -100, max = 100) double axis_mm,
            @ForAll @DoubleRange(min = -3, max = 3) double off_mm) {
        WorkshopAxis workshop = new WorkshopAxis(gauge);
        Reversal reversal = new Reversal(
                workshop.touch(PIN, axis_mm + off_mm, 8, direction, 0.2),
                workshop.touch(PIN, axis_mm - off_mm, 8, direction, 0.5));
        Touch other = workshop.touch(FACE, -17, 0, direction, 0.4);
        assertEquals(-17 - axis_mm, reversal.fromAxisTo(other, EXACT).value(), TOLERANCE_MM);
    }

    /**
     * A straight feature leans by an angle in what carries it. At each travel the contact meets the part of it that has
     * come to stand before the contact, found by walking along the feature, not by formula.
     */
    @Property(tries = 300)
    void alignmentFindsTheLean_andTheCorrectionTakesItAway(
            @ForAll("gauges") Gauge gauge,
            @ForAll Direction direction,
            @ForAll Turning turning,
            @ForAll @DoubleRange(min = -2, max = 2) double lean_deg,
            @ForAll @IntRange(min = 2, max = 6) int stations) {
        Alignment measured = new Alignment(walk(gauge, direction, stations, u_mm -> height(u_mm, lean_deg)));
        assertEquals(lean_deg, measured.lean_deg(EXACT).value(), 1e-7);
        double corrected_deg = lean_deg
                + turning.sign() * measured.correction_deg(turning, EXACT).value();
        Alignment again = new Alignment(walk(gauge, direction, stations, u_mm -> height(u_mm, corrected_deg)));
        assertEquals(0, again.slope(EXACT).value(), 1e-9);
        assertEquals(0, measured.straightness(EXACT).map(Estimate::value).orElse(0.0), 1e-7);
    }

    private static double height(double along_mm, double lean_deg) {
        return 5 + along_mm * Math.sin(Math.toRadians(lean_deg)) / Math.cos(Math.toRadians(lean_deg));
    }

    private static List<Station> walk(Gauge gauge, Direction direction, int stations, DoubleUnaryOperator height_mm) {
        WorkshopAxis workshop = new WorkshopAxis(gauge);
        List<Station> walked = new ArrayList<>();
        double contact_mm = 30; // where the indicator stands along the travel, on the table or on the head
        for (int i = 0; i < stations; i++) {
            double travel_mm = -100 + 250.0 * i / stations;
            boolean carried = gauge.stand() == Stand.ON_TABLE;
            // Head at travel: what it carries stands at travel + u on the table.
            double met_mm = carried ? contact_mm - travel_mm : travel_mm + contact_mm;
            walked.add(new Station(
                    travel_mm,
                    "along",
                    workshop.touch(FACE, height_mm.applyAsDouble(met_mm), 0, direction, 0.3 + 0.05 * i)));
        }
        return walked;
    }

    /** Each marked spot has a warp of its own and is brought to both ends. */
    @Property(tries = 200)
    void markedSpotsTakeThePartsOwnFormOut(
            @ForAll("gauges") Gauge gauge,
            @ForAll Direction direction,
            @ForAll @DoubleRange(min = -0.5, max = 0.5) double lean_deg,
            @ForAll @DoubleRange(min = -0.2, max = 0.2) double warp1_mm,
            @ForAll @DoubleRange(min = -0.2, max = 0.2) double warp2_mm) {
        List<Station> stations = new ArrayList<>();
        double[] warp_mm = {warp1_mm, warp2_mm};
        for (int spot = 0; spot < 2; spot++) {
            double own_mm = warp_mm[spot];
            for (Station station : walk(gauge, direction, 2, u_mm -> height(u_mm, lean_deg) + own_mm)) {
                stations.add(new Station(station.travel_mm(), "spot " + spot, station.touch()));
            }
        }
        assertEquals(lean_deg, new Alignment(stations).lean_deg(EXACT).value(), 1e-7);
    }

    /** The spindle is a leaning line, its plunger runs along it down to the table. */
    @Property(tries = 300)
    void tramFindsTiltAndDirection(
            @ForAll Pressing pressing,
            @ForAll @Scale(4) @DoubleRange(min = 0.001, max = 0.5) double tilt_deg,
            @ForAll @DoubleRange(min = 0, max = 359) double direction_deg,
            @ForAll @DoubleRange(min = 20, max = 200) double radius_mm,
            @ForAll @IntRange(min = 3, max = 9) int angles) {
        double tilt_rad = Math.toRadians(tilt_deg);
        double direction_rad = Math.toRadians(direction_deg);
        Vector3D spindle = new Vector3D(
                Math.sin(tilt_rad) * Math.cos(direction_rad),
                Math.sin(tilt_rad) * Math.sin(direction_rad),
                Math.cos(tilt_rad));
        Vector3D side = Vector3D.PLUS_J.crossProduct(spindle).normalize();
        Vector3D back = spindle.crossProduct(side);
        List<Tram.AtAngle> readings = new ArrayList<>();
        for (int i = 0; i < angles; i++) {
            double angle_deg = 360.0 * i / angles + 11;
            Vector3D holder = new Vector3D(0, 0, 150)
                    .add(side.scalarMultiply(radius_mm * Math.cos(Math.toRadians(angle_deg))))
                    .add(back.scalarMultiply(radius_mm * Math.sin(Math.toRadians(angle_deg))));
            double reach_mm = holder.getZ() / spindle.getZ();
            double pressed_mm = 155 - reach_mm;
            readings.add(new Tram.AtAngle(angle_deg, Estimate.exact(0.7 + pressing.sign() * pressed_mm), 10.0 * i));
        }
        Tram tram = new Tram(readings, radius_mm, pressing);
        assertEquals(tilt_deg, tram.tilt_deg(EXACT).value(), 1e-9);
        double found_deg = tram.direction(EXACT).asOptional().orElseThrow().value();
        assertEquals(0, Math.IEEEremainder(found_deg - direction_deg, 360), 0.01);
        // Where the circle's angles begin turns by a quarter of the tilt squared, the sine is not the angle: both of
        // third order in the tilt, together below half its cube.
        double thirdOrder_deg = Math.toDegrees(tilt_rad * tilt_rad * tilt_rad) / 2 + 1e-9;
        assertEquals(
                Math.toDegrees(Math.asin(spindle.getX())),
                tram.leanTowards_deg(0, EXACT).value(),
                thirdOrder_deg);
        assertEquals(
                Math.toDegrees(Math.asin(spindle.getY())),
                tram.leanTowards_deg(90, EXACT).value(),
                thirdOrder_deg);
    }

    /** The stand creeps at a steady rate between the touches. */
    @Property(tries = 200)
    void aSteadyDriftDropsOutOfABracketedPair_andIsTold(
            @ForAll("gauges") Gauge gauge,
            @ForAll Direction direction,
            @ForAll @DoubleRange(min = -0.2, max = 0.2) double drift_mm,
            @ForAll @DoubleRange(min = 0.1, max = 0.9) double when) {
        Touch before = at(new WorkshopAxis(gauge).touch(PIN, 10, 8, direction, 0.3), 0);
        Touch middle =
                at(new WorkshopAxis(crept(gauge, when * drift_mm)).touch(FACE, 60, 0, direction, 0.4), when * 100);
        Touch after = at(new WorkshopAxis(crept(gauge, drift_mm)).touch(PIN, 10, 8, direction, 0.35), 100);
        BracketedPair pair = new BracketedPair(before, middle, after);
        assertEquals(50, pair.offset(EXACT).value(), TOLERANCE_MM);
        assertEquals(Math.abs(drift_mm), Math.abs(pair.misclosure(EXACT).value()), TOLERANCE_MM);
        if (Math.abs(drift_mm) > 1e-6) {
            assertTrue(pair.moved(EXACT));
            assertTrue(pair.warnings(EXACT).get(0).contains("stand or part moved"));
        }
    }

    private static Gauge crept(Gauge gauge, double by_mm) {
        return new Gauge(
                gauge.stand(),
                gauge.sense(),
                gauge.freePlace_mm() + by_mm,
                gauge.contactRadius_mm(),
                gauge.readingWhenFree_mm());
    }

    /** A face pushes a plunger that runs askew; friction makes it lag behind. */
    @Property(tries = 200)
    void aScaleCheckFindsTiltAndHysteresis(
            @ForAll Direction direction,
            @ForAll Pressing pressing,
            @ForAll @DoubleRange(min = 1, max = 12) double tilt_deg,
            @ForAll @Scale(4) @DoubleRange(min = 0, max = 0.01) double lag_mm) {
        Vector3D plunger = new Vector3D(Math.cos(Math.toRadians(tilt_deg)), Math.sin(Math.toRadians(tilt_deg)), 0);
        List<ScaleCheck.Step> steps = new ArrayList<>();
        for (int i = 0; i <= 12; i++) {
            boolean in = i <= 6;
            double face_mm = 0.1 * (in ? i : 12 - i);
            double travelled_mm = face_mm / plunger.getX(); // along the plunger until its tip is in the face
            double shown_mm = travelled_mm - (in ? lag_mm : -lag_mm) / 2;
            steps.add(new ScaleCheck.Step(
                    300 + direction.sign() * face_mm,
                    0.2 + pressing.sign() * shown_mm,
                    in ? ScaleCheck.Motion.IN : ScaleCheck.Motion.OUT));
        }
        ScaleCheck check = new ScaleCheck(steps, new Approach(direction, pressing, Stand.ON_TABLE));
        assertEquals(tilt_deg, check.tilt_deg(), 1e-4);
        assertEquals(Math.cos(Math.toRadians(tilt_deg)), check.readingScale().value(), 1e-9);
        assertEquals(-pressing.sign() * lag_mm, check.hysteresis().value(), 1e-9);
        assertTrue(check.repeatability_mm() < 1e-9);
    }

    /** A lever turns about its pivot; its tip is carried up by the surface. */
    @Property(tries = 100)
    void aLeverMovesByTheCosineOfItsAngle(@ForAll @DoubleRange(min = -60, max = 60) double angle_deg) {
        double lever_mm = 15;
        double turned_rad = 1e-5;
        double before_mm = lever_mm * Math.sin(Math.toRadians(angle_deg) - turned_rad);
        double after_mm = lever_mm * Math.sin(Math.toRadians(angle_deg) + turned_rad);
        double shown_mm = 2 * lever_mm * turned_rad; // graduated for a lever that lies flat
        assertEquals(
                after_mm - before_mm,
                shown_mm * LeverContact.readingScale(Estimate.exact(angle_deg)).value(),
                1e-12);
    }
}

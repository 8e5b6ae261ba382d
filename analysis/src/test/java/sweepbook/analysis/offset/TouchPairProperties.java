package sweepbook.analysis.offset;

import static org.junit.jupiter.api.Assertions.assertEquals;

import net.jqwik.api.Arbitraries;
import net.jqwik.api.Arbitrary;
import net.jqwik.api.Combinators;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.Provide;
import net.jqwik.api.constraints.DoubleRange;
import sweepbook.analysis.offset.WorkshopAxis.Gauge;
import sweepbook.analysis.uncertainty.BudgetLine;
import sweepbook.analysis.uncertainty.Estimate;

/** Simulated truth: all sign combinations against bodies that push each other. */
class TouchPairProperties {
    private static final double TOLERANCE_MM = 1e-9;

    @Provide
    Arbitrary<Gauge> gauges() {
        return Combinators.combine(
                        Arbitraries.of(Stand.values()),
                        Arbitraries.of(-1, 1),
                        Arbitraries.doubles().between(-900, 900),
                        Arbitraries.doubles().between(0.1, 5),
                        Arbitraries.doubles().between(-3, 3))
                .as(Gauge::new);
    }

    private static TouchConditions contact(double radius_mm) {
        return new TouchConditions(
                new IndicatorLimits(
                        0, 0, 0, 0, Estimate.exact(1), new Estimate(radius_mm, 1, Double.POSITIVE_INFINITY)),
                new MachineLimits(0, 0),
                Surroundings.NOT_STATED);
    }

    private static Feature feature(String name, double radius_mm) {
        return radius_mm == 0
                ? new Feature.Flat(name)
                : new Feature.Round(name, new Estimate(radius_mm, 1, Double.POSITIVE_INFINITY));
    }

    @Property
    void theOffsetIsTheTruth_roundOrFlat_fromEitherSide_onTableOrMachine(
            @ForAll("gauges") Gauge gauge,
            @ForAll Direction direction1,
            @ForAll Direction direction2,
            @ForAll @DoubleRange(min = -500, max = 500) double place1_mm,
            @ForAll @DoubleRange(min = -500, max = 500) double place2_mm,
            @ForAll("radii") double radius1_mm,
            @ForAll("radii") double radius2_mm,
            @ForAll @DoubleRange(min = 0.01, max = 2) double depth1_mm,
            @ForAll @DoubleRange(min = 0.01, max = 2) double depth2_mm) {
        WorkshopAxis axis = new WorkshopAxis(gauge);
        Touch first = axis.touch(feature("one", radius1_mm), place1_mm, radius1_mm, direction1, depth1_mm);
        Touch second = axis.touch(feature("two", radius2_mm), place2_mm, radius2_mm, direction2, depth2_mm);
        assertEquals(
                place2_mm - place1_mm,
                new TouchPair(first, second)
                        .offset(contact(gauge.contactRadius_mm()))
                        .value(),
                TOLERANCE_MM);
    }

    @Provide
    Arbitrary<Double> radii() {
        return Arbitraries.oneOf(Arbitraries.just(0.0), Arbitraries.doubles().between(0.5, 60));
    }

    @Property
    void theSensitivityToARadiusIsWhatAWrongRadiusDoes(
            @ForAll("gauges") Gauge gauge,
            @ForAll Direction direction1,
            @ForAll Direction direction2,
            @ForAll @DoubleRange(min = -0.4, max = 0.4) double wrong_mm,
            @ForAll boolean sameFeature) {
        WorkshopAxis axis = new WorkshopAxis(gauge);
        Touch first = axis.touch(feature("one", 10), 30, 10 + wrong_mm, direction1, 0.3);
        Touch second = sameFeature
                ? axis.touch(feature("one", 10), 30, 10 + wrong_mm, direction2, 0.5)
                : axis.touch(feature("two", 12), 90, 12, direction2, 0.5);
        var offset = new TouchPair(first, second).offset(contact(gauge.contactRadius_mm()));
        double sensitivity = offset.lines().stream()
                .filter(line -> line.source().equals("radius of one"))
                .mapToDouble(BudgetLine::sensitivity)
                .sum();
        double truth_mm = sameFeature ? 0 : 60;
        assertEquals(truth_mm, offset.value() + sensitivity * wrong_mm, TOLERANCE_MM);
    }

    @Property
    void theSensitivityToTheContactIsWhatAWrongContactDoes(
            @ForAll("gauges") Gauge gauge,
            @ForAll Direction direction1,
            @ForAll Direction direction2,
            @ForAll @DoubleRange(min = -0.4, max = 0.4) double wrong_mm) {
        WorkshopAxis axis = new WorkshopAxis(gauge);
        Touch first = axis.touch(feature("one", 10), 30, 10, direction1, 0.3);
        Touch second = axis.touch(feature("two", 12), 90, 12, direction2, 0.5);
        var offset = new TouchPair(first, second).offset(contact(gauge.contactRadius_mm() - wrong_mm));
        double sensitivity = offset.lines().stream()
                .filter(line -> line.source().equals("radius of the contact"))
                .mapToDouble(BudgetLine::sensitivity)
                .sum();
        assertEquals(60, offset.value() + sensitivity * wrong_mm, TOLERANCE_MM);
    }

    @Property
    void aReversalFindsHowFarTheFeatureLiesOffTheRotaryAxis(
            @ForAll("gauges") Gauge gauge,
            @ForAll Direction direction,
            @ForAll @DoubleRange(min = -500, max = 500) double axis_mm,
            @ForAll @DoubleRange(min = 0, max = 2) double radial_mm,
            @ForAll @DoubleRange(min = 0, max = 360) double at_deg,
            @ForAll("radii") double radius_mm) {
        WorkshopAxis axis = new WorkshopAxis(gauge);
        Feature pin = feature("pin", radius_mm);
        double before_mm = axis_mm + radial_mm * Math.cos(Math.toRadians(at_deg));
        double turned_mm = axis_mm + radial_mm * Math.cos(Math.toRadians(at_deg + 180));
        Reversal reversal = new Reversal(
                axis.touch(pin, before_mm, radius_mm, direction, 0.4),
                axis.touch(pin, turned_mm, radius_mm, direction, 0.7));
        var eccentricity = reversal.eccentricity(contact(0));
        assertEquals(before_mm - axis_mm, eccentricity.value(), TOLERANCE_MM);
        // Law: radii drop out of value and budget alike.
        assertEquals(0, eccentricity.combined().stdU());
    }
}

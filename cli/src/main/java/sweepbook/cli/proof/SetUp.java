package sweepbook.cli.proof;

import java.util.Optional;
import java.util.random.RandomGenerator;
import java.util.random.RandomGeneratorFactory;
import sweepbook.analysis.offset.Approach;
import sweepbook.analysis.offset.Direction;
import sweepbook.analysis.offset.Feature;
import sweepbook.analysis.offset.IndicatorLimits;
import sweepbook.analysis.offset.MachineLimits;
import sweepbook.analysis.offset.Stand;
import sweepbook.analysis.offset.Surroundings;
import sweepbook.analysis.offset.Touch;
import sweepbook.analysis.offset.TouchConditions;
import sweepbook.analysis.sweep.Pressing;
import sweepbook.analysis.uncertainty.Estimate;
import sweepbook.simulator.machine.Axis;
import sweepbook.simulator.machine.Carrier;
import sweepbook.simulator.machine.Head;
import sweepbook.simulator.machine.Pose;
import sweepbook.simulator.machine.Shape;
import sweepbook.simulator.machine.Vec3;

/**
 * One machine with one indicator and one person, all as imperfect as stated: the true bodies of the simulator decide
 * when the contact is pressed, then every error is drawn from what the conditions say of it. Used by one thread.
 */
final class SetUp {
    private static final double INF = Double.POSITIVE_INFINITY;
    private static final Vec3 CONTACT = new Vec3(700, 400, 150);

    final RandomGenerator random;
    final TouchConditions conditions;
    final Head head;
    final Direction direction;
    private final Stand stand;
    private final Pressing pressing;
    private final double trueScale;
    private final double trueContact_mm;
    private final double creep_mm_per_s;
    private final double readingU_mm;
    private final int readingFreedom;
    private final ErrorCurve errors;

    /**
     * @param headCarriesFeatures whether the indicator has to stand on the table; else either
     */
    SetUp(long seed, boolean headCarriesFeatures) {
        random = RandomGeneratorFactory.of("L64X128MixRandom").create(seed);
        Estimate scale = new Estimate(1, between(0, 0.002), INF);
        Estimate contact = new Estimate(1.5, 0.002, INF);
        IndicatorLimits indicator = new IndicatorLimits(between(0, 0.003), 0.2, between(0, 0.002), 0, scale, contact);
        MachineLimits machine = new MachineLimits(0.0005 * (1 << random.nextInt(3)), between(0, 0.002));
        double drift_mm_per_s = between(0, 1e-5);
        conditions = new TouchConditions(indicator, machine, new Surroundings(drift_mm_per_s, Optional.empty()));
        head = new Head(new Vec3(between(-5, 5), between(20, 60), 0));
        direction = random.nextBoolean() ? Direction.PLUS : Direction.MINUS;
        stand = headCarriesFeatures || random.nextBoolean() ? Stand.ON_TABLE : Stand.ON_MACHINE;
        pressing = random.nextBoolean() ? Pressing.RAISES : Pressing.LOWERS;
        trueScale = near(scale);
        trueContact_mm = near(contact);
        creep_mm_per_s = between(-drift_mm_per_s, drift_mm_per_s);
        readingU_mm = between(0.0003, 0.002);
        readingFreedom = random.nextInt(5, 60);
        errors = new ErrorCurve(indicator, random);
    }

    /** The same with a contact that swings both ways, pressed from the other side. */
    private SetUp(SetUp other) {
        random = other.random;
        conditions = other.conditions;
        head = other.head;
        direction = other.direction == Direction.PLUS ? Direction.MINUS : Direction.PLUS;
        stand = other.stand;
        pressing = other.pressing == Pressing.RAISES ? Pressing.LOWERS : Pressing.RAISES;
        trueScale = other.trueScale;
        trueContact_mm = other.trueContact_mm;
        creep_mm_per_s = other.creep_mm_per_s;
        readingU_mm = other.readingU_mm;
        readingFreedom = other.readingFreedom;
        errors = other.errors;
    }

    SetUp fromTheOtherSide() {
        return new SetUp(this);
    }

    double between(double least, double greatest) {
        return least + (greatest - least) * random.nextDouble();
    }

    /** What is true where this was stated. */
    double near(Estimate stated) {
        return stated.value() + stated.stdU() * random.nextGaussian();
    }

    boolean carriesFeatures() {
        return stand == Stand.ON_TABLE;
    }

    /** The direction out of the contact's free place into which it is pushed. */
    Vec3 out(Axis measured) {
        int sense = carriesFeatures() ? direction.sign() : -direction.sign();
        return Vec3.on(measured, sense);
    }

    double crept_mm(double time_s) {
        return creep_mm_per_s * time_s;
    }

    /** The axes where the middle of a shape and the free contact come together, with these rotary positions. */
    Pose linedUp(Vec3 middle, Pose rotary) {
        Pose lined = rotary;
        for (Axis axis : new Axis[] {Axis.X, Axis.Y, Axis.Z}) {
            double apart_mm = ofContact().place(CONTACT, lined).along(axis)
                    - ofFeature().place(middle, lined).along(axis);
            lined = lined.with(axis, lined.of(axis) + (carriesFeatures() ? apart_mm : -apart_mm));
        }
        return lined;
    }

    private Carrier ofFeature() {
        return carriesFeatures() ? head : Carrier.TABLE;
    }

    private Carrier ofContact() {
        return carriesFeatures() ? Carrier.TABLE : head;
    }

    /**
     * A touch of a true shape, with everything that is wrong with it.
     *
     * @param feature as the person states it
     * @param lined all axes where the middle of the shape is on the free contact
     * @param crept_mm how far the stand has moved
     */
    Touch touch(Feature feature, Shape shape, Axis measured, Pose lined, double time_s, double crept_mm) {
        Vec3 free = CONTACT.plus(Vec3.on(measured, crept_mm));
        double depth_mm = between(0.300, 0.310);
        double pressed_mm = lined.of(measured);
        double clear_mm = pressed_mm - direction.sign() * 60;
        for (int i = 0; i < 60; i++) {
            double tried_mm = (clear_mm + pressed_mm) / 2;
            Pose pose = lined.with(measured, tried_mm);
            double pushed_mm = shape.carriedBy(ofFeature(), pose)
                    .way_mm(ofContact().place(free, pose), trueContact_mm, out(measured));
            if (pushed_mm < depth_mm) {
                clear_mm = tried_mm;
            } else {
                pressed_mm = tried_mm;
            }
        }
        MachineLimits machine = conditions.machine();
        double shown_mm = Math.rint((pressed_mm + half(machine.backlash_mm())) / machine.readoutStep_mm())
                * machine.readoutStep_mm();
        return reading(feature, shown_mm, depth_mm, time_s);
    }

    /** What the indicator shows for a true depth, as the touch at a shown position. */
    Touch reading(Feature feature, double shown_mm, double depth_mm, double time_s) {
        return new Touch(
                feature, new Approach(direction, pressing, stand), shown_mm, read(pressing.sign() * depth_mm), time_s);
    }

    /** Movement for a reading of one. */
    double trueScale() {
        return trueScale;
    }

    double trueContact_mm() {
        return trueContact_mm;
    }

    /** What the indicator shows for a true movement; a stated scatter is itself known from few readings. */
    private Estimate read(double true_mm) {
        double ideal_mm = true_mm / trueScale;
        double shown_mm = ideal_mm
                + errors.of_mm(ideal_mm)
                + half(conditions.indicator().hysteresis_mm())
                + readingU_mm * random.nextGaussian();
        double squares = 0;
        for (int i = 0; i < readingFreedom; i++) {
            double deviate = random.nextGaussian();
            squares += deviate * deviate;
        }
        return new Estimate(shown_mm, readingU_mm * Math.sqrt(squares / readingFreedom), readingFreedom);
    }

    private double half(double width_mm) {
        return between(-width_mm / 2, width_mm / 2);
    }
}

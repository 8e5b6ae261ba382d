package sweepbook.analysis.offset;

import java.util.Optional;
import org.hipparchus.distribution.continuous.ChiSquaredDistribution;
import org.hipparchus.random.RandomDataGenerator;
import sweepbook.analysis.offset.WorkshopAxis.Gauge;
import sweepbook.analysis.uncertainty.Estimate;

/**
 * Somebody at work with a gauge and a machine that are as imperfect as stated: every error is drawn from what the
 * conditions say of it, then put on what the bodies of {@link WorkshopAxis} truly do.
 */
final class Technician {
    final RandomDataGenerator random;
    final TouchConditions conditions;
    private final Gauge gauge;
    private final double trueScale;
    private static final int STEPS = 20;
    private final double[] unevenness = new double[2200]; // of 20 mm in steps of a twentieth of 0.2 mm
    private final double spread_mm;
    private final double readingU_mm;
    private final double readingFreedom;
    private final double creep_mm_per_s;

    Technician(long seed) {
        random = new RandomDataGenerator(seed);
        double step_mm = new double[] {0.0005, 0.001, 0.002}[random.nextInt(0, 2)];
        Estimate scale = new Estimate(1, between(0, 0.002), Double.POSITIVE_INFINITY);
        IndicatorLimits indicator = new IndicatorLimits(
                between(0, 0.003), 0.2, between(0, 0.002), 0, scale, new Estimate(1, 0.002, Double.POSITIVE_INFINITY));
        MachineLimits machine = new MachineLimits(step_mm, between(0, 0.002));
        double drift_mm_per_s = between(0, 1e-5);
        conditions = new TouchConditions(indicator, machine, new Surroundings(drift_mm_per_s, Optional.empty()));
        creep_mm_per_s = between(-drift_mm_per_s, drift_mm_per_s);
        trueScale = near(scale);
        for (int i = 0; i < unevenness.length; i++) {
            unevenness[i] = random.nextNormal(0, 1);
        }
        spread_mm = between(0, 0.05);
        readingU_mm = between(0.0003, 0.002);
        readingFreedom = random.nextInt(5, 60);
        gauge = new Gauge(
                random.nextInt(0, 1) == 0 ? Stand.ON_TABLE : Stand.ON_MACHINE,
                random.nextInt(0, 1) == 0 ? 1 : -1,
                between(-300, 300),
                near(indicator.contactRadius()),
                between(-1, 1));
    }

    double between(double least, double greatest) {
        return least == greatest ? least : random.nextUniform(least, greatest);
    }

    double near(Estimate estimate) {
        return estimate.value() + estimate.stdU() * random.nextNormal(0, 1);
    }

    Direction direction() {
        return random.nextInt(0, 1) == 0 ? Direction.PLUS : Direction.MINUS;
    }

    Stand stand() {
        return gauge.stand();
    }

    /** How far the stand has crept. */
    double crept_mm(double time_s) {
        return creep_mm_per_s * time_s;
    }

    Touch touch(Feature feature, double place_mm, double trueRadius_mm, Direction direction, double time_s) {
        return touch(feature, place_mm, trueRadius_mm, direction, time_s, crept_mm(time_s));
    }

    /** A touch with everything that is wrong with it. */
    Touch touch(
            Feature feature,
            double place_mm,
            double trueRadius_mm,
            Direction direction,
            double time_s,
            double crept_mm) {
        Gauge now = new Gauge(
                gauge.stand(),
                gauge.sense(),
                gauge.freePlace_mm() + crept_mm,
                gauge.contactRadius_mm(),
                gauge.readingWhenFree_mm());
        double pressed_mm = between(0.3, 0.3 + spread_mm); // as near to one zero as this person comes
        Touch exact = new WorkshopAxis(now).touch(feature, place_mm, trueRadius_mm, direction, pressed_mm);
        MachineLimits machine = conditions.machine();
        double stands_mm = exact.position_mm() + half(machine.backlash_mm());
        double shown_mm = Math.rint(stands_mm / machine.readoutStep_mm()) * machine.readoutStep_mm();
        return new Touch(
                feature, exact.approach(), shown_mm, read(exact.reading().value()), time_s);
    }

    /** What the indicator shows for a true movement. */
    Estimate read(double true_mm) {
        double shown_mm = true_mm / trueScale
                + ownError_mm(true_mm)
                + half(conditions.indicator().hysteresis_mm())
                + readingU_mm * random.nextNormal(0, 1);
        double seenU_mm = readingU_mm
                * Math.sqrt(random.nextDeviate(new ChiSquaredDistribution(readingFreedom)) / readingFreedom);
        return new Estimate(shown_mm, seenU_mm, readingFreedom);
    }

    /** The indicator's own error: a moving sum, so that readings further apart than its window have nothing in common. */
    private double ownError_mm(double true_mm) {
        int at =
                (int) Math.floor((true_mm + 10) * STEPS / conditions.indicator().independentAfter_mm());
        double sum = 0;
        for (int i = 0; i < STEPS; i++) {
            sum += unevenness[at + i];
        }
        return conditions.indicator().permissibleError_mm() / Math.sqrt(3) * sum / Math.sqrt(STEPS);
    }

    private double half(double width_mm) {
        return between(-width_mm / 2, width_mm / 2);
    }
}

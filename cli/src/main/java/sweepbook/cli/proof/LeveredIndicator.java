package sweepbook.cli.proof;

import sweepbook.analysis.offset.IndicatorLimits;
import sweepbook.analysis.offset.LeverContact;
import sweepbook.analysis.offset.Touch;
import sweepbook.analysis.offset.TouchConditions;
import sweepbook.analysis.uncertainty.Estimate;

/** The indicator of a set-up with a lever that stands at an angle, known about as well as a person sees it. */
final class LeveredIndicator {
    private final SetUp setUp;
    private final double trueCosine;
    private final Estimate stated;

    LeveredIndicator(SetUp setUp, Estimate angle) {
        this.setUp = setUp;
        this.trueCosine = Math.cos(Math.toRadians(setUp.near(angle)));
        this.stated = LeverContact.readingScale(angle);
    }

    /** The touch as the lever shows it, the machine gone on by so much. */
    Touch read(Touch touch, double deeper_mm) {
        double deepened_mm = touch.approach().pressing().sign() * deeper_mm / setUp.trueScale();
        Estimate reading = touch.reading();
        return new Touch(
                touch.feature(),
                touch.approach(),
                touch.position_mm() + touch.approach().direction().sign() * deeper_mm,
                new Estimate(
                        (reading.value() + deepened_mm) / trueCosine,
                        reading.stdU() / trueCosine,
                        reading.degreesOfFreedom()),
                touch.time_s());
    }

    TouchConditions conditions() {
        IndicatorLimits plain = setUp.conditions.indicator();
        double stdU =
                Math.hypot(stated.stdU(), stated.value() * plain.readingScale().stdU());
        return new TouchConditions(
                new IndicatorLimits(
                        plain.permissibleError_mm(),
                        plain.independentAfter_mm(),
                        plain.hysteresis_mm(),
                        plain.tilt_deg(),
                        new Estimate(stated.value(), stdU, stated.degreesOfFreedom()),
                        plain.contactRadius()),
                setUp.conditions.machine(),
                setUp.conditions.surroundings());
    }
}

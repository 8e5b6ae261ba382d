package sweepbook.analysis.offset;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import sweepbook.analysis.uncertainty.Budget;
import sweepbook.analysis.uncertainty.BudgetLine;
import sweepbook.analysis.uncertainty.Distribution;

/**
 * Distance between the places of two features along the measured axis, from one touch of each by the same indicator in
 * the same stand.
 *
 * <p>Each place is {@code g (a p s r - P - a (R + rt))} up to one constant; the offset is the second place less the
 * first, in the direction of the axis. The derivation stands in {@code analysis/docs/offsets.md}.
 */
public final class TouchPair {
    private final Touch first;
    private final Touch second;

    public TouchPair(Touch first, Touch second) {
        if (first.approach().stand() != second.approach().stand()) {
            throw new IllegalArgumentException(
                    "the touches of " + first.feature().name() + " and "
                            + second.feature().name()
                            + " do not belong together: the indicator stands on the table at one, on the machine at the other");
        }
        this.first = first;
        this.second = second;
    }

    /** The offset with its sources of uncertainty, in millimetres. */
    public Budget offset(TouchConditions conditions) {
        IndicatorLimits indicator = conditions.indicator();
        double measured_mm = difference(indicator);
        List<BudgetLine> lines = new ArrayList<>();
        readings(indicator, lines);
        indicatorItself(indicator, lines);
        machine(conditions.machine(), lines);
        drift(conditions.surroundings(), lines);
        sizes(indicator, lines);
        double corrected_mm = measured_mm;
        if (conditions.surroundings().temperature().isPresent()) {
            Temperature temperature = conditions.surroundings().temperature().get();
            corrected_mm = temperature.correct_mm(measured_mm);
            lines.addAll(temperature.lines(measured_mm));
        }
        return new Budget(corrected_mm, lines);
    }

    /** What the budget lacks or the person should look at, in plain words. */
    public List<String> warnings(TouchConditions conditions) {
        List<String> missing = new ArrayList<>();
        addIfMissing(missing, conditions.indicator().permissibleError_mm(), "the indicator's permissible error");
        addIfMissing(missing, conditions.indicator().hysteresis_mm(), "the indicator's hysteresis");
        addIfMissing(missing, conditions.indicator().tilt_deg(), "the tilt of the indicator");
        addIfMissing(missing, conditions.machine().readoutStep_mm(), "the step of the machine's readout");
        addIfMissing(missing, conditions.machine().backlash_mm(), "the machine's backlash");
        addIfMissing(missing, conditions.surroundings().drift_mm_per_s(), "the drift");
        List<String> warnings = new ArrayList<>();
        if (!missing.isEmpty()) {
            warnings.add("not in the uncertainty, because nobody stated it: " + String.join(", ", missing));
        }
        if (fromOtherSide() && conditions.indicator().contactRadius().value() == 0) {
            warnings.add("the features were touched from opposite sides: state the radius of the contact, "
                    + "the offset is wrong by twice as much");
        }
        return List.copyOf(warnings);
    }

    private double difference(IndicatorLimits indicator) {
        double scale = indicator.readingScale().value();
        double surfaces_mm = second.surface_mm(scale) - first.surface_mm(scale);
        double contact_mm = indicator.contactRadius().value();
        return surfaces_mm
                - second.touchedSide() * (second.feature().radius().value() + contact_mm)
                + first.touchedSide() * (first.feature().radius().value() + contact_mm);
    }

    private void readings(IndicatorLimits indicator, List<BudgetLine> lines) {
        double scale = indicator.readingScale().value();
        String repeat = "sweep again and pool; a steadier stand; a finer indicator";
        lines.add(BudgetLine.of(
                "reading at " + first.feature().name(), first.reading(), -first.signOfReading() * scale, repeat));
        lines.add(BudgetLine.of(
                "reading at " + second.feature().name(), second.reading(), second.signOfReading() * scale, repeat));
    }

    private void indicatorItself(IndicatorLimits indicator, List<BudgetLine> lines) {
        double apart_mm = Math.abs(second.reading().value() - first.reading().value());
        String nearZero = "bring the needle to the same zero at both touches";
        if (indicator.permissibleError_mm() > 0) {
            double correlation = indicator.errorCorrelation(apart_mm);
            lines.add(BudgetLine.within(
                    String.format(
                            Locale.ROOT, "indicator's error, same indicator twice (correlation %.2f)", correlation),
                    Distribution.RECTANGULAR,
                    indicator.permissibleError_mm(),
                    Math.sqrt(2 * (1 - correlation)),
                    nearZero));
        }
        if (indicator.hysteresis_mm() > 0) {
            lines.add(BudgetLine.within(
                    "indicator's hysteresis at two touches",
                    Distribution.RECTANGULAR,
                    indicator.hysteresis_mm() / 2,
                    Math.sqrt(2),
                    "press in from the same side each time"));
        }
        lines.add(BudgetLine.of(
                "scale of the readings",
                indicator.readingScale(),
                second.signOfReading() * second.reading().value()
                        - first.signOfReading() * first.reading().value(),
                nearZero));
        if (indicator.tilt_deg() > 0) {
            // The cosine only ever shortens: an uncorrected bias of mean square d^2 tilt^4 / 20 for a tilt anywhere
            // within its limits (JCGM 100:2008, F.2.4.4, for one rectangular tilt).
            double tilt_rad = Math.toRadians(indicator.tilt_deg());
            lines.add(new BudgetLine(
                    "cosine of the indicator's tilt",
                    Distribution.RECTANGULAR,
                    tilt_rad * tilt_rad / Math.sqrt(20),
                    apart_mm,
                    Double.POSITIVE_INFINITY,
                    nearZero));
        }
    }

    private static void machine(MachineLimits machine, List<BudgetLine> lines) {
        if (machine.readoutStep_mm() > 0) {
            lines.add(BudgetLine.within(
                    "step of the machine's readout at two touches",
                    Distribution.RECTANGULAR,
                    machine.readoutStep_mm() / 2,
                    Math.sqrt(2),
                    "show more decimals if the controller can"));
        }
        if (machine.backlash_mm() > 0) {
            lines.add(BudgetLine.within(
                    "backlash at two touches",
                    Distribution.RECTANGULAR,
                    machine.backlash_mm() / 2,
                    Math.sqrt(2),
                    "come to every touch from the same side, over a longer way"));
        }
    }

    private void drift(Surroundings surroundings, List<BudgetLine> lines) {
        if (surroundings.drift_mm_per_s() > 0) {
            lines.add(BudgetLine.within(
                    "drift of stand or part between the touches",
                    Distribution.RECTANGULAR,
                    surroundings.drift_mm_per_s(),
                    Math.abs(second.time_s() - first.time_s()),
                    "touch the first feature again at the end; work faster; let the machine warm through"));
        }
    }

    private void sizes(IndicatorLimits indicator, List<BudgetLine> lines) {
        String measureIt = "measure the diameter, or touch by reversal, where it drops out";
        if (first.feature().equals(second.feature())) {
            lines.add(BudgetLine.of(
                    "radius of " + first.feature().name(),
                    first.feature().radius(),
                    first.touchedSide() - second.touchedSide(),
                    measureIt));
        } else {
            lines.add(BudgetLine.of(
                    "radius of " + first.feature().name(), first.feature().radius(), first.touchedSide(), measureIt));
            lines.add(BudgetLine.of(
                    "radius of " + second.feature().name(),
                    second.feature().radius(),
                    -second.touchedSide(),
                    measureIt));
        }
        lines.add(BudgetLine.of(
                "radius of the contact",
                indicator.contactRadius(),
                first.touchedSide() - second.touchedSide(),
                "touch both features from the same side"));
    }

    private boolean fromOtherSide() {
        return first.touchedSide() != second.touchedSide();
    }

    private static void addIfMissing(List<String> missing, double limit, String what) {
        if (Double.isNaN(limit)) {
            missing.add(what);
        }
    }
}

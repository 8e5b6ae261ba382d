package sweepbook.analysis.offset;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import sweepbook.analysis.uncertainty.Budget;
import sweepbook.analysis.uncertainty.BudgetLine;
import sweepbook.analysis.uncertainty.Distribution;
import sweepbook.analysis.uncertainty.Estimate;

/**
 * A sum of the places of touches by one indicator in one stand, each with a weight; the weights add up to nothing, so
 * that the unknown place of the stand drops out. Every measurement of this package is such a sum, and gets its budget
 * here: a source that all touches share enters with the sum of its weights, one that each has anew with the root of
 * the sum of their squares.
 */
final class WeightedTouches {
    /** Touches up to this number have a budget line each. */
    private static final int LISTED = 3;

    private static final double CANCELLED = 1e-12;

    private static final String NEAR_ZERO = "bring the needle to the same zero at every touch";

    private final List<Touch> touches;
    private final double[] weight;

    /** One weight for each touch. */
    WeightedTouches(List<Touch> touches, double... weight) {
        this.touches = List.copyOf(touches);
        this.weight = weight.clone();
        Stand stand = touches.get(0).approach().stand();
        for (Touch touch : touches) {
            if (touch.approach().stand() != stand) {
                throw new IllegalArgumentException(
                        "the touches of "
                                + touches.get(0).feature().name() + " and "
                                + touch.feature().name()
                                + " do not belong together: the indicator stands on the table at one, on the machine at the other");
            }
        }
    }

    /** The sum with its sources of uncertainty; in millimetres for weights without unit. */
    Budget budget(TouchConditions conditions) {
        IndicatorLimits indicator = conditions.indicator();
        double measured = measured(indicator);
        List<BudgetLine> lines = newAtEachTouch(conditions);
        scale(indicator, lines);
        sizes(indicator, lines);
        if (conditions.surroundings().temperature().isPresent()) {
            Temperature temperature = conditions.surroundings().temperature().get();
            lines.addAll(temperature.lines(measured));
            measured = temperature.correct_mm(measured);
        }
        return new Budget(measured, lines);
    }

    /** The same without what all touches share: how much such a sum scatters when it is measured again. */
    Budget repeatability(TouchConditions conditions) {
        return new Budget(measured(conditions.indicator()), newAtEachTouch(conditions));
    }

    private List<BudgetLine> newAtEachTouch(TouchConditions conditions) {
        List<BudgetLine> lines =
                new ArrayList<>(readings(conditions.indicator().readingScale().value()));
        indicatorItself(conditions.indicator(), lines);
        machine(conditions.machine(), lines);
        drift(conditions.surroundings(), lines);
        return lines;
    }

    /** How much touch i scatters of its own among the touches of one stand, what they share left out. */
    static Estimate scatterAmong(List<Touch> touches, int i, TouchConditions conditions) {
        int n = touches.size();
        if (n == 1) {
            return new WeightedTouches(touches, 1).repeatability(conditions).combined();
        }
        double[] againstMean = new double[n];
        for (int k = 0; k < n; k++) {
            againstMean[k] = ((k == i ? 1.0 : 0) - 1.0 / n) / Math.sqrt(1 - 1.0 / n);
        }
        return new WeightedTouches(touches, againstMean)
                .repeatability(conditions)
                .combined();
    }

    /** What the budget lacks or the person should look at, in plain words. */
    List<String> warnings(TouchConditions conditions) {
        List<String> missing = new ArrayList<>();
        addIfMissing(missing, conditions.indicator().permissibleError_mm(), "the indicator's permissible error");
        addIfMissing(missing, conditions.indicator().hysteresis_mm(), "the indicator's hysteresis");
        addIfMissing(missing, conditions.indicator().tilt_deg(), "the tilt of the indicator");
        addIfMissing(missing, conditions.machine().readoutStep_mm(), "the step of the machine's readout");
        addIfMissing(missing, conditions.machine().backlash_mm(), "the machine's backlash");
        if (driftWeight() != 0) {
            addIfMissing(missing, conditions.surroundings().drift_mm_per_s(), "the drift");
        }
        List<String> warnings = new ArrayList<>();
        if (!missing.isEmpty()) {
            warnings.add("not in the uncertainty, because nobody stated it: " + String.join(", ", missing));
        }
        if (contactWeight() != 0 && conditions.indicator().contactRadius().value() == 0) {
            warnings.add("the features were touched from opposite sides: state the radius of the contact, "
                    + "or the offset is wrong by twice as much");
        }
        return List.copyOf(warnings);
    }

    private double measured(IndicatorLimits indicator) {
        double sum = 0;
        for (int i = 0; i < weight.length; i++) {
            sum += weight[i] * place_mm(touches.get(i), indicator);
        }
        return sum;
    }

    /** Centre or face of what was touched, up to the place of the stand. */
    static double place_mm(Touch touch, IndicatorLimits indicator) {
        double behind_mm =
                touch.feature().radius().value() + indicator.contactRadius().value();
        return touch.surface_mm(indicator.readingScale().value()) - touch.touchedSide() * behind_mm;
    }

    private List<BudgetLine> readings(double scale) {
        String repeat = "sweep again and pool; a steadier stand; a finer indicator";
        List<BudgetLine> each = new ArrayList<>();
        for (int i = 0; i < weight.length; i++) {
            Touch touch = touches.get(i);
            each.add(BudgetLine.of(
                    "reading at " + touch.feature().name(),
                    touch.reading(),
                    weight[i] * touch.signOfReading() * scale,
                    repeat));
        }
        if (each.size() <= LISTED) {
            return each;
        }
        Estimate together = new Budget(0, each).combined();
        return List.of(BudgetLine.of("readings at " + each.size() + " touches", together, 1, repeat));
    }

    private void indicatorItself(IndicatorLimits indicator, List<BudgetLine> lines) {
        if (indicator.permissibleError_mm() > 0) {
            double together = sumOfErrors(indicator);
            lines.add(BudgetLine.within(
                    String.format(
                            Locale.ROOT,
                            "indicator's error, one indicator at %d touches (correlation %.2f)",
                            weight.length,
                            1 - together * together / sumOfSquares()),
                    Distribution.RECTANGULAR,
                    indicator.permissibleError_mm(),
                    together,
                    NEAR_ZERO));
        }
        if (indicator.hysteresis_mm() > 0) {
            lines.add(BudgetLine.within(
                    "indicator's hysteresis at each touch",
                    Distribution.RECTANGULAR,
                    indicator.hysteresis_mm() / 2,
                    Math.sqrt(sumOfSquares()),
                    "press in from the same side each time"));
        }
    }

    private void scale(IndicatorLimits indicator, List<BudgetLine> lines) {
        double shared = 0;
        for (int i = 0; i < weight.length; i++) {
            shared += weight[i]
                    * touches.get(i).signOfReading()
                    * touches.get(i).reading().value();
        }
        lines.add(BudgetLine.of("scale of the readings", indicator.readingScale(), shared, NEAR_ZERO)
                .in(""));
        if (indicator.tilt_deg() > 0) {
            // The cosine only ever works one way: an uncorrected bias of mean square d^2 tilt^4 / 20 for a tilt that
            // lies anywhere within its limits (JCGM 100:2008, F.2.4.4, for one rectangular tilt).
            double tilt_rad = Math.toRadians(indicator.tilt_deg());
            lines.add(new BudgetLine(
                            "cosine of the indicator's tilt",
                            Distribution.RECTANGULAR,
                            tilt_rad * tilt_rad / Math.sqrt(20),
                            shared,
                            Double.POSITIVE_INFINITY,
                            NEAR_ZERO)
                    .in(""));
        }
    }

    /** Root of the variance of the weighted sum of errors of one size that correlate the nearer their readings are. */
    private double sumOfErrors(IndicatorLimits indicator) {
        double variance = 0;
        for (int i = 0; i < weight.length; i++) {
            for (int j = 0; j < weight.length; j++) {
                Touch one = touches.get(i);
                Touch other = touches.get(j);
                variance += weight[i]
                        * one.signOfReading()
                        * weight[j]
                        * other.signOfReading()
                        * indicator.errorCorrelation(
                                one.reading().value() - other.reading().value());
            }
        }
        return Math.sqrt(Math.max(0, variance));
    }

    private void machine(MachineLimits machine, List<BudgetLine> lines) {
        if (machine.readoutStep_mm() > 0) {
            lines.add(BudgetLine.within(
                    "step of the machine's readout at each touch",
                    Distribution.RECTANGULAR,
                    machine.readoutStep_mm() / 2,
                    Math.sqrt(sumOfSquares()),
                    "show more decimals if the controller can"));
        }
        if (machine.backlash_mm() > 0) {
            lines.add(BudgetLine.within(
                    "backlash at each touch",
                    Distribution.RECTANGULAR,
                    machine.backlash_mm() / 2,
                    Math.sqrt(sumOfSquares()),
                    "come to every touch from the same side, over a longer way"));
        }
    }

    private void drift(Surroundings surroundings, List<BudgetLine> lines) {
        if (surroundings.drift_mm_per_s() > 0) {
            lines.add(BudgetLine.within(
                            "drift of stand or part between the touches",
                            Distribution.RECTANGULAR,
                            surroundings.drift_mm_per_s(),
                            driftWeight(),
                            "touch the first feature again at the end; work faster; let the machine warm through")
                    .in("mm/s"));
        }
    }

    private void sizes(IndicatorLimits indicator, List<BudgetLine> lines) {
        Map<Feature, Double> weightOf = new LinkedHashMap<>();
        for (int i = 0; i < weight.length; i++) {
            weightOf.merge(touches.get(i).feature(), -weight[i] * touches.get(i).touchedSide(), Double::sum);
        }
        weightOf.forEach((feature, sensitivity) -> lines.add(BudgetLine.of(
                "radius of " + feature.name(),
                feature.radius(),
                rounded(sensitivity, 1),
                "measure the diameter, or touch by reversal, where it drops out")));
        lines.add(BudgetLine.of(
                "radius of the contact",
                indicator.contactRadius(),
                contactWeight(),
                "touch all features from the same side"));
    }

    private double contactWeight() {
        double sum = 0;
        for (int i = 0; i < weight.length; i++) {
            sum -= weight[i] * touches.get(i).touchedSide();
        }
        return rounded(sum, 1);
    }

    private double driftWeight() {
        double sum = 0;
        for (int i = 0; i < weight.length; i++) {
            sum += weight[i] * (touches.get(i).time_s() - touches.get(0).time_s());
        }
        return rounded(
                sum, touches.get(touches.size() - 1).time_s() - touches.get(0).time_s());
    }

    /** Weights that cancel leave rounding errors; they are nothing. */
    private double rounded(double sum, double scale) {
        return Math.abs(sum) < CANCELLED * Math.abs(scale) * Math.sqrt(sumOfSquares()) ? 0 : sum;
    }

    private double sumOfSquares() {
        double sum = 0;
        for (double w : weight) {
            sum += w * w;
        }
        return sum;
    }

    private static void addIfMissing(List<String> missing, double limit, String what) {
        if (Double.isNaN(limit)) {
            missing.add(what);
        }
    }
}

package sweepbook.cli.report;

import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.List;

/** Where the ticks of an axis stand: at whole multiples of a step, labelled with as many decimals as the step has. */
record Ticks(BigDecimal step, long first, long last) {
    private static final List<Integer> MANTISSAS = List.of(1, 2, 5, 10);

    private static final List<Integer> ANGLE_STEPS_DEG = List.of(5, 15, 30, 45, 90, 180);

    /** Ticks in steps of 1, 2 or 5 times a power of ten, at most so many. */
    static Ticks between(double from, double to, int atMost) {
        double widest = (to - from) / atMost;
        if (!(widest > 0) || Double.isInfinite(widest)) {
            throw new IllegalArgumentException("no ticks from " + from + " to " + to);
        }
        int power = (int) Math.floor(Math.log10(widest));
        double mantissa = widest / Math.pow(10, power);
        int chosen =
                MANTISSAS.stream().filter(m -> m >= mantissa - 1e-9).findFirst().orElse(10);
        return every(BigDecimal.valueOf(chosen).scaleByPowerOfTen(power), from, to);
    }

    /** Ticks for an angle in degrees, in steps that divide a quarter turn, at most so many. */
    static Ticks ofAngle(double from_deg, double to_deg, int atMost) {
        double widest_deg = (to_deg - from_deg) / atMost;
        return ANGLE_STEPS_DEG.stream()
                .filter(step_deg -> step_deg >= widest_deg)
                .findFirst()
                .map(step_deg -> every(BigDecimal.valueOf(step_deg), from_deg, to_deg))
                .orElseGet(() -> between(from_deg, to_deg, atMost));
    }

    /** Ticks at all multiples of the step in the range. */
    static Ticks every(BigDecimal step, double from, double to) {
        double width = step.doubleValue();
        return new Ticks(step, (long) Math.ceil(from / width - 1e-6), (long) Math.floor(to / width + 1e-6));
    }

    List<Double> values() {
        List<Double> values = new ArrayList<>();
        for (long k = first; k <= last; k++) {
            values.add(at(k).doubleValue());
        }
        return values;
    }

    List<String> labels() {
        List<String> labels = new ArrayList<>();
        for (long k = first; k <= last; k++) {
            labels.add(at(k).setScale(Math.max(0, step.stripTrailingZeros().scale()))
                    .toPlainString());
        }
        return labels;
    }

    private BigDecimal at(long k) {
        return step.multiply(BigDecimal.valueOf(k));
    }
}

package sweepbook.cli.report;

import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.List;

/** Where the ticks of an axis stand: at whole multiples of a step, labelled with as many decimals as the step has. */
record Ticks(BigDecimal step, long first, long last) {
    private static final List<Integer> MANTISSAS = List.of(1, 2, 5, 10);

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

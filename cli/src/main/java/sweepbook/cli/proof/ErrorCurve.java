package sweepbook.cli.proof;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.random.RandomGenerator;
import sweepbook.analysis.offset.IndicatorLimits;

/**
 * An indicator's error against its reading, drawn so that it varies as much as its permissible error lets one expect and
 * that two readings share it in proportion to how near they are, as stated: a sum of staircases that begin anywhere.
 */
final class ErrorCurve {
    private static final int STAIRCASES = 12;

    private final IndicatorLimits indicator;
    private final RandomGenerator random;
    private final double[] begins = new double[STAIRCASES];
    private final List<Map<Integer, Double>> steps_mm = new ArrayList<>();

    ErrorCurve(IndicatorLimits indicator, RandomGenerator random) {
        this.indicator = indicator;
        this.random = random;
        for (int i = 0; i < STAIRCASES; i++) {
            begins[i] = random.nextDouble();
            steps_mm.add(new HashMap<>());
        }
    }

    double of_mm(double reading_mm) {
        double half_mm = indicator.permissibleError_mm() / Math.sqrt(STAIRCASES);
        double sum_mm = 0;
        for (int i = 0; i < STAIRCASES; i++) {
            int step = (int) Math.floor(reading_mm / indicator.independentAfter_mm() + begins[i]);
            sum_mm += steps_mm.get(i).computeIfAbsent(step, unknown -> half_mm * (2 * random.nextDouble() - 1));
        }
        return sum_mm;
    }
}

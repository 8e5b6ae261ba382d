package sweepbook.analysis.sweep;

/**
 * Watches whether the reading stands still, reading by reading, in constant time and memory; used by one thread.
 *
 * <p>A stretch at rest ends when three readings in a row lie off its mean by more than rounding and noise allow. Within
 * the stretch sums are kept in blocks of a quarter of a second, so that a settling at its start can be left out: the
 * level counts as stable as soon as some trailing window shows no creep and knows its level to a tenth of a step.
 */
final class Stillness {
    private static final int BLOCKS = 64;
    private static final double BLOCK_S = 0.25;
    private static final int STRAYS = 3;

    /** No display steps finer; what is less is arithmetic. */
    private static final double LEAST_STEP_MM = 1e-7;

    private static final int LEAST_READINGS = 8;
    private static final double LEAST_S = 1;

    /** With noise of several steps a tenth of a step would take minutes; a person is not kept longer than this. */
    private static final double LONGEST_WAIT_S = 12;
    /** Scatter below this part of a step is hidden by it: the needle stands on one digit, or goes over to the next. */
    private static final double HIDDEN = 0.4;
    /** Makes a needle on one digit stable after three seconds; part of a step over the time that it stands. */
    private static final double ONE_DIGIT = 0.3;
    /** Chance is not memory: standard deviations by which neighbours have to be alike. */
    private static final double MEMORY = 2;
    /** Of many short windows one looks flat by chance; one so many times longer must not show a creep. */
    private static final double LOOK_BACK = 4;

    private final boolean stepIsStated;
    private double step_mm;

    // Ring of blocks; each holds sums about the first reading of the stretch.
    private final int[] count = new int[BLOCKS];
    private final double[] sumT = new double[BLOCKS];
    private final double[] sumY = new double[BLOCKS];
    private final double[] sumTT = new double[BLOCKS];
    private final double[] sumTY = new double[BLOCKS];
    private final double[] sumYY = new double[BLOCKS];
    private final double[] sumYBefore = new double[BLOCKS];
    private double last_mm;
    private long block;
    private double origin_s = Double.NaN;
    private double origin_mm;
    private double last_s;
    private double mean_mm;
    private long readings;
    private int strays;

    // Scatter of single readings, from second differences, which even motion leaves at nought.
    private double before_mm = Double.NaN;
    private double beforeThat_mm = Double.NaN;
    private double scatter_mm;

    /** Step of the display in millimetres; NaN to take the smallest change that is seen. */
    Stillness(double step_mm) {
        this.stepIsStated = step_mm > 0;
        this.step_mm = stepIsStated ? step_mm : 0;
    }

    void add(double time_s, double reading_mm) {
        learnStep(reading_mm);
        learnScatter(reading_mm);
        last_s = time_s;
        if (Double.isNaN(origin_s)) {
            start(time_s, reading_mm);
        } else if (Math.abs(reading_mm - mean_mm) > band_mm()) {
            strays++;
            if (strays >= STRAYS) {
                start(time_s, reading_mm);
            }
            return;
        } else {
            strays = 0;
        }
        take(time_s, reading_mm);
    }

    /** What rounding and noise may move a single reading off the level. */
    double band_mm() {
        return 1.2 * step_mm + 4 * scatter_mm + 1e-9;
    }

    private void learnStep(double reading_mm) {
        double change_mm = Math.abs(reading_mm - before_mm);
        if (!stepIsStated && change_mm > LEAST_STEP_MM && (step_mm == 0 || change_mm < step_mm)) {
            step_mm = change_mm;
        }
    }

    /**
     * Follows the first quartile of the second differences' size: motion is in few of the readings at rest, and rounding
     * hides what is below a step anyway. For normal noise the quartile is 0.319 times their deviation, sqrt 6 times the
     * noise's.
     */
    private void learnScatter(double reading_mm) {
        if (!Double.isNaN(beforeThat_mm)) {
            double size_mm = Math.abs(reading_mm - 2 * before_mm + beforeThat_mm) / (0.319 * Math.sqrt(6));
            double pull = 0.05 * Math.max(step_mm, scatter_mm);
            scatter_mm = Math.max(0, scatter_mm + (size_mm > scatter_mm ? 0.25 : -0.75) * pull);
        }
        beforeThat_mm = before_mm;
        before_mm = reading_mm;
    }

    private void start(double time_s, double reading_mm) {
        origin_s = time_s;
        origin_mm = reading_mm;
        mean_mm = reading_mm;
        readings = 0;
        strays = 0;
        last_mm = 0;
        block = 0;
        clear(0);
    }

    private void clear(int slot) {
        count[slot] = 0;
        sumT[slot] = 0;
        sumY[slot] = 0;
        sumTT[slot] = 0;
        sumTY[slot] = 0;
        sumYY[slot] = 0;
        sumYBefore[slot] = 0;
    }

    private void take(double time_s, double reading_mm) {
        double t = time_s - origin_s;
        double y = reading_mm - origin_mm;
        long current = (long) (t / BLOCK_S);
        if (current > block) {
            // Blocks in which nothing came stay empty; a gap longer than the ring clears all of it.
            for (long next = Math.max(block + 1, current - BLOCKS + 1); next <= current; next++) {
                clear((int) (next % BLOCKS));
            }
            block = current;
        }
        int slot = (int) (block % BLOCKS);
        count[slot]++;
        sumT[slot] += t;
        sumY[slot] += y;
        sumTT[slot] += t * t;
        sumTY[slot] += t * y;
        sumYY[slot] += y * y;
        sumYBefore[slot] += y * last_mm;
        last_mm = y;
        readings++;
        // The mean forgets soon: behind a creep it would lag, and leave out as strays what shows the creep.
        mean_mm += (reading_mm - mean_mm) / Math.min(readings, 8);
    }

    /** How long the reading has stood still, in seconds. */
    double rest_s() {
        return Double.isNaN(origin_s) ? 0 : last_s - origin_s;
    }

    long restReadings() {
        return readings;
    }

    /** The level at which it stands, in millimetres, rough. */
    double level_mm() {
        return mean_mm;
    }

    /** Whether waiting longer would not change the level by a tenth of a step. */
    boolean isStable() {
        if (readings < LEAST_READINGS || rest_s() < LEAST_S) {
            return false;
        }
        Window window = new Window();
        double stands_s = Double.POSITIVE_INFINITY;
        for (long b = block; b >= 0 && b > block - BLOCKS; b--) {
            window.reachBackTo((int) (b % BLOCKS));
            double span_s = last_s - origin_s - b * BLOCK_S;
            if (window.n < LEAST_READINGS || span_s < LEAST_S) {
                continue;
            }
            if (stands_s == Double.POSITIVE_INFINITY) {
                if (window.stands(span_s)) {
                    stands_s = span_s;
                }
            } else if (span_s > LOOK_BACK * stands_s) {
                break;
            } else if (window.creeps(span_s)) {
                return false;
            }
        }
        return stands_s < Double.POSITIVE_INFINITY;
    }

    /** The sums of the latest blocks. */
    private final class Window {
        private int n;
        private double t;
        private double y;
        private double tt;
        private double ty;
        private double yy;
        private double yBefore;
        private double slope_mm_per_s;
        private double slopeU_mm_per_s;
        private double levelU_mm;

        void reachBackTo(int slot) {
            n += count[slot];
            t += sumT[slot];
            y += sumY[slot];
            tt += sumTT[slot];
            ty += sumTY[slot];
            yy += sumYY[slot];
            yBefore += sumYBefore[slot];
        }

        /** Whether it shows no creep, and a level known to a tenth of a step. */
        boolean stands(double span_s) {
            look(span_s);
            boolean known = levelU_mm <= 0.1 * step_mm + 1e-9 || span_s >= LONGEST_WAIT_S;
            return known && (Math.abs(slope_mm_per_s) + 2 * slopeU_mm_per_s) * DwellLevel.CREEP_s <= step_mm + 2e-9;
        }

        /** Whether it shows a creep beyond doubt. */
        boolean creeps(double span_s) {
            look(span_s);
            return (Math.abs(slope_mm_per_s) - slopeU_mm_per_s) * DwellLevel.CREEP_s > step_mm + 2e-9;
        }

        private void look(double span_s) {
            double ctt = Math.max(tt - t * t / n, 1e-12);
            double cty = ty - t * y / n;
            double cyy = Math.max(0, yy - y * y / n);
            slope_mm_per_s = cty / ctt;
            double aboutLine = Math.max(0, cyy - slope_mm_per_s * cty) / Math.max(1, n - 2);
            if (aboutLine < HIDDEN * HIDDEN * step_mm * step_mm) {
                // A needle that stands on one digit may creep below it by up to a step; standing longer does not tell
                // its
                // level better. After three seconds it creeps by less than a step in three.
                slopeU_mm_per_s = (step_mm + 1e-9) / span_s * ONE_DIGIT;
                levelU_mm = 0;
            } else {
                double memory = Math.min(0.95, (yBefore - y * y / n) / Math.max(cyy, 1e-18));
                double inflation = memory > MEMORY / Math.sqrt(n) ? (1 + memory) / (1 - memory) : 1;
                slopeU_mm_per_s = Math.sqrt(aboutLine * inflation / ctt);
                levelU_mm = Math.sqrt(aboutLine * inflation / n);
            }
        }
    }
}

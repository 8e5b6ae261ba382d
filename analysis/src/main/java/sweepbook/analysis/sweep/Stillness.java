package sweepbook.analysis.sweep;

/**
 * Watches whether the reading stands still, reading by reading, in constant time and memory; used by one thread.
 *
 * <p>A stretch at rest ends when some readings in a row lie off its mean by more than rounding and noise allow. Of the rest the
 * longest span up to now that is straight is looked at, which leaves out a settling at its start: it is stable when that
 * span excludes a creep of one step in five seconds, and knows its level to a tenth of a step.
 */
final class Stillness {
    /** So many readings off the mean in a row, and for so long, have moved: what hums comes back sooner. */
    private static final int STRAYS = 3;

    private static final double STRAYS_s = 0.05;

    private static final int HUM = 4;
    private static final int FORGETS = 8;
    private static final double FORGETS_s = 0.2;

    /** No display steps finer; what is less is arithmetic. */
    private static final double LEAST_STEP_mm = 1e-7;

    private static final int FEWEST = 8;
    private static final double SHORTEST_s = 0.8;
    /** How often it is looked at, at most. */
    private static final double LOOK_s = 0.02;

    /** With noise of several steps a tenth of a step would take minutes; a person is not kept longer than this. */
    private static final double LONGEST_WAIT_s = 12;
    /** Scatter below this part of a step is hidden by it: waiting does not tell the level better. */
    private static final double HIDDEN = 0.4;
    /** Below this the display's steps have a say in how fast the needle may creep. */
    private static final double STEPPED = 0.5;
    /** A creep is excluded by so many standard uncertainties: it is looked for all the time. */
    private static final double EXCLUDED = 3.1;
    /** Squares over the variance that two lines take off those of one, by chance once in a hundred spans. */
    private static final double BENT = 9;
    /** What lies off a line by more than this part of the band, root mean square, moved to and fro. */
    private static final double BESIDE = 0.5;
    /** A bent span is tried again shorter by one part of so many. */
    private static final int SHORTER = 8;

    private static final double MOST_MEMORY = 0.95;

    private final boolean stepIsStated;
    private final Repeats repeats = new Repeats();
    private final RestBlocks blocks = new RestBlocks();
    private final RestBlocks.Line line = new RestBlocks.Line();
    private final RestBlocks.Line head = new RestBlocks.Line();
    private final RestBlocks.Line tail = new RestBlocks.Line();
    private final HiddenCreep hidden = new HiddenCreep();
    private double step_mm;

    private double origin_s = Double.NaN;
    private double last_s;
    private double mean_mm;
    private long readings;
    private int strays;
    private double strayFrom_s;

    private double lookedAt_s = Double.NEGATIVE_INFINITY;
    private double stableFrom_s = Double.NaN;
    private boolean mayCreepUnseen;
    private double hiddenLookAt_s;

    private final Scatter scatter = new Scatter(1);
    /** While at rest only: what hums is mistaken for motion else. */
    private final Scatter hum = new Scatter(HUM);

    private double before_mm = Double.NaN;

    /** Step of the display in millimetres; NaN to take the smallest change that is seen. */
    Stillness(double step_mm) {
        this.stepIsStated = step_mm > 0;
        this.step_mm = stepIsStated ? step_mm : 0;
    }

    void add(double time_s, double reading_mm) {
        last_s = time_s;
        if (!repeats.isFresh(reading_mm, step_mm)) {
            return;
        }
        boolean finer = learnStep(reading_mm);
        scatter.add(reading_mm, step_mm);
        before_mm = reading_mm;
        if (Double.isNaN(origin_s) || finer) {
            start(time_s, reading_mm);
        } else if (Math.abs(reading_mm - mean_mm) > Math.max(band_mm(), band_mm(hum))) {
            strayFrom_s = strays++ == 0 ? time_s : strayFrom_s;
            if (strays < STRAYS || time_s - strayFrom_s < STRAYS_s) {
                return;
            }
            start(time_s, reading_mm);
        } else {
            strays = 0;
        }
        readings++;
        // The mean forgets soon: behind a creep it would lag, and leave out as strays what shows the creep.
        double forgets = Math.max(FORGETS, FORGETS_s * readings / Math.max(rest_s(), FORGETS_s));
        mean_mm += (reading_mm - mean_mm) / Math.min(readings, forgets);
        blocks.add(time_s, reading_mm, step_mm);
        hum.add(reading_mm, step_mm);
        if (time_s - lookedAt_s >= LOOK_s) {
            lookedAt_s = time_s;
            stableFrom_s = stableFrom_s();
        }
    }

    private void start(double time_s, double reading_mm) {
        origin_s = time_s;
        mean_mm = reading_mm;
        readings = 0;
        strays = 0;
        stableFrom_s = Double.NaN;
        blocks.start(time_s, reading_mm);
        hiddenLookAt_s = time_s;
        hum.breakOff();
    }

    /** What rounding and noise may move a single reading off the level. */
    double band_mm() {
        return band_mm(scatter);
    }

    private double band_mm(Scatter single) {
        return 1.2 * step_mm + 4 * single.scatter_mm() + 1e-9;
    }

    private boolean learnStep(double reading_mm) {
        double change_mm = Math.abs(reading_mm - before_mm);
        if (!stepIsStated && change_mm > LEAST_STEP_mm && (step_mm == 0 || change_mm < 0.9 * step_mm)) {
            step_mm = change_mm;
            return true;
        }
        return false;
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

    /** Since when it stands where it does not creep, and waiting longer would not change the level by a tenth of a step; NaN else. */
    double standsFrom_s() {
        return strays > 0 || mayCreepUnseen && !hidden.stands() ? Double.NaN : stableFrom_s;
    }

    private double stableFrom_s() {
        mayCreepUnseen = false;
        if (readings < FEWEST || rest_s() < SHORTEST_s) {
            return Double.NaN;
        }
        int back = straight();
        return back > 0 && stands(back) ? Math.max(origin_s, blocks.begin_s(back)) : Double.NaN;
    }

    /** The longest span up to now, nearly, that two lines do not explain better than one; 0 where even a short one is bent. */
    private int straight() {
        double most_mm = BESIDE * Math.max(band_mm(), band_mm(hum));
        double most_mm2 = most_mm * most_mm;
        for (int back = blocks.size(); back > 0; back -= Math.max(1, back / SHORTER)) {
            if (blocks.readings(back) < FEWEST || span_s(back) < SHORTEST_s) {
                return 0;
            }
            blocks.fit(back, 0, line);
            if (line.squares_mm2 <= most_mm2 * line.readings
                    && !isBent(back, back / 4)
                    && !isBent(back, back / 2)
                    && !isBent(back, back - back / 4)) {
                return back;
            }
        }
        return 0;
    }

    private double span_s(int back) {
        return last_s - Math.max(origin_s, blocks.begin_s(back));
    }

    /** Whether the span is better explained by two lines, the first through so many blocks. */
    private boolean isBent(int back, int first) {
        blocks.fit(back, back - first, head);
        blocks.fit(back - first, 0, tail);
        if (head.readings < 3 || tail.readings < 3) {
            return false;
        }
        double squares = head.squares_mm2 + tail.squares_mm2;
        double gain = line.squares_mm2 - squares;
        double alike = (head.squares_mm2 * head.alike + tail.squares_mm2 * tail.alike) / Math.max(squares, 1e-18);
        double least = line.readings * 0.01 * step_mm * step_mm + 1e-18;
        double variance = Math.max(squares, least) / Math.max(1, line.readings - 4);
        return gain > BENT * variance * inflation(alike, line.readings);
    }

    /** What noise that hangs together counts for in a mean; few readings about a line look less alike than they are. */
    private static double inflation(double alike, double readings) {
        double memory = (readings * alike + 1) / Math.max(readings - 4, 1);
        double held = Math.max(0, Math.min(MOST_MEMORY, memory));
        return (1 + held) / (1 - held);
    }

    private boolean stands(int back) {
        double span_s = span_s(back);
        double n = line.readings;
        double variance = line.squares_mm2 / Math.max(1, n - 2);
        double inflation = inflation(line.alike, n);
        double scatter = Math.sqrt(variance);
        boolean known = scatter < HIDDEN * step_mm
                || Math.sqrt(variance * inflation / n) <= 0.1 * step_mm + 1e-9
                || span_s >= LONGEST_WAIT_s;
        if (!known) {
            return false;
        }
        if (step_mm == 0) {
            // Nothing has changed yet, and nobody has said by how much it would.
            return span_s >= DwellLevel.CREEP_s - LOOK_s;
        }
        double left_mm_per_s = step_mm / DwellLevel.CREEP_s - Math.abs(line.slope_mm_per_s);
        if (scatter < STEPPED * step_mm) {
            mayCreepUnseen = true;
            watch(back, span_s);
            return left_mm_per_s > 0;
        }
        double slopeU_mm_per_s = Math.sqrt(variance * inflation / line.spread_s2);
        return left_mm_per_s >= EXCLUDED * (1 + (EXCLUDED * EXCLUDED + 1) / (4 * n / inflation)) * slopeU_mm_per_s;
    }

    /** Looked at anew when the span has grown. */
    private void watch(int back, double span_s) {
        if (last_s >= hiddenLookAt_s) {
            hidden.watch(blocks, back, blocks.digit(mean_mm, step_mm));
            hiddenLookAt_s = last_s + Math.max(RestBlocks.BLOCK_s, 0.05 * span_s);
        }
    }
}

package sweepbook.analysis.sweep;

import sweepbook.acquisition.trace.Trace;

/**
 * Reads a sweep reading by reading and says what it holds; findings come from the readings that are kept, which the
 * whole-trace call keeps alike, so any split of a trace gives the same bits. Memory is bounded, and feeding a reading or asking what can be told now costs the same
 * however long the sweep. Used by one thread.
 */
public final class SweepReader {
    private static final double LATELY_s = 60;

    private final SweepSettings settings;
    private final ReadingStore store = new ReadingStore();
    private final LiveSweep live;

    public SweepReader(SweepSettings settings) {
        this.settings = settings;
        live = new LiveSweep(settings);
    }

    /** The findings of a whole trace. */
    public static SweepFindings read(Trace trace, SweepSettings settings) {
        ReadingStore store = new ReadingStore(trace.size(), trace.lastDigit_mm());
        for (int i = 0; i < trace.size(); i++) {
            store.add(trace.time_s(i), trace.reading_mm(i));
        }
        return findings(store, settings.in(trace.unit()));
    }

    /** Feeds the next reading; times never descend. */
    public void add(double time_s, double reading_mm) {
        store.add(time_s, reading_mm);
        live.add(time_s, reading_mm);
    }

    /** What can be told now. */
    public SweepNow now() {
        return live.now();
    }

    /** What all readings so far say; the reader can go on. */
    public SweepFindings findings() {
        return findings(store, settings);
    }

    private static SweepFindings findings(ReadingStore store, SweepSettings settings) {
        double told_mm = settings.resolution_mm();
        double resolution_mm = told_mm > 0 ? told_mm : store.resolution_mm();
        LengthWords words = new LengthWords(settings.unit(), resolution_mm);
        ReadingStore.Entries entries = store.entries();
        double standsFrom_s = store.isWhole()
                ? standsFrom_s(entries, 0, told_mm)
                : standsFrom_s(entries, lately(entries), resolution_mm);
        Told told = new Told(settings.pressing(), words, settings.jogStep_mm(), settings.contour(), standsFrom_s);
        return new SweepAnalysis(entries, told).findings();
    }

    /** Since when the last reading stands for who watches the entries come: the same as live where all readings are kept. */
    private static double standsFrom_s(ReadingStore.Entries entries, int from, double resolution_mm) {
        Stillness still = new Stillness(resolution_mm);
        for (int i = from; i < entries.time_s().length; i++) {
            still.add(entries.time_s()[i], entries.reading_mm()[i]);
        }
        return still.standsFrom_s();
    }

    /** The first entry of the last minute, more than a rest is looked at back. */
    private static int lately(ReadingStore.Entries entries) {
        double[] t = entries.time_s();
        int i = t.length - 1;
        while (i > 0 && t[i - 1] >= t[t.length - 1] - LATELY_s) {
            i--;
        }
        return i;
    }
}

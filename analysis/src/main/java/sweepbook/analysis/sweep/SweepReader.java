package sweepbook.analysis.sweep;

import sweepbook.acquisition.trace.Trace;

/**
 * Reads a sweep reading by reading and says what it holds; the whole-trace call feeds the same machine, so any split of
 * a trace gives the same bits. Memory is bounded, and feeding a reading or asking what can be told now costs the same
 * however long the sweep. Used by one thread.
 */
public final class SweepReader {
    private final SweepSettings settings;
    private final ReadingStore store = new ReadingStore();
    private final LiveSweep live;

    public SweepReader(SweepSettings settings) {
        this.settings = settings;
        live = new LiveSweep(settings);
    }

    /** The findings of a whole trace. */
    public static SweepFindings read(Trace trace, SweepSettings settings) {
        SweepReader reader = new SweepReader(settings.in(trace.unit()));
        for (int i = 0; i < trace.size(); i++) {
            reader.add(trace.time_s(i), trace.reading_mm(i));
        }
        return reader.findings();
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
        double told_mm = settings.resolution_mm();
        double resolution_mm = told_mm > 0 ? told_mm : store.resolution_mm();
        LengthWords words = new LengthWords(settings.unit(), resolution_mm);
        Told told = new Told(settings.pressing(), words, settings.jogStep_mm(), live.standsFrom_s());
        return new SweepAnalysis(store.entries(), told).findings();
    }
}

package sweepbook.analysis.sweep;

import sweepbook.acquisition.trace.Trace;

/**
 * Reads a sweep reading by reading and says what it holds; the whole-trace call feeds the same machine, so any split of
 * a trace gives the same bits. Used by one thread.
 */
public final class SweepReader {
    public SweepReader(SweepSettings settings) {}

    /** The findings of a whole trace. */
    public static SweepFindings read(Trace trace, SweepSettings settings) {
        SweepReader reader = new SweepReader(settings);
        for (int i = 0; i < trace.size(); i++) {
            reader.add(trace.time_s(i), trace.reading_mm(i));
        }
        return reader.findings();
    }

    /** Feeds the next reading; times never descend. */
    public void add(double time_s, double reading_mm) {
        throw new UnsupportedOperationException();
    }

    /** What can be told now. */
    public SweepNow now() {
        throw new UnsupportedOperationException();
    }

    /** What all readings so far say; the reader can go on. */
    public SweepFindings findings() {
        throw new UnsupportedOperationException();
    }
}

package sweepbook.analysis.sweep;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import sweepbook.analysis.uncertainty.Estimate;
import sweepbook.analysis.uncertainty.Finding;

/** What the person did after the last pass: stop on the crest, jog, hold still; and with it, what came before. */
final class AfterSweep {
    /** The stop misses the crest by no more than this, or by a part of the fall of the passes. */
    private static final double MISS_mm = 0.02;

    private static final double MISS_OF_FALL = 0.15;

    private final CleanTrace trace;
    private final PassFinder finder;
    private final List<PassFit> fits;
    private final Optional<Estimate> crest;
    private final List<Still> tail = new ArrayList<>();
    private int dwell = -1;

    AfterSweep(CleanTrace trace, PassFinder finder, List<PassFit> fits, Optional<Estimate> crest) {
        this.trace = trace;
        this.finder = finder;
        this.fits = fits;
        this.crest = crest;
        int after = lastCrest();
        for (Still still : finder.stills()) {
            if (still.from() >= after || still.to() == trace.size()) {
                tail.add(still);
            }
        }
        crest.ifPresent(this::findDwell);
    }

    private int lastCrest() {
        int last = 0;
        for (PassFit fit : fits) {
            last = Math.max(last, fit.readings().to);
        }
        return last;
    }

    private void findDwell(Estimate h) {
        double fall = 0;
        for (PassFinder.Window window : finder.windows()) {
            fall = Math.max(fall, window.fall_mm());
        }
        double move = PassFinder.leastMove_mm(trace);
        double miss = Math.max(Math.max(MISS_mm, MISS_OF_FALL * fall), 2 * move);
        for (int i = 0; i < tail.size(); i++) {
            double off = tail.get(i).level_mm() - h.value();
            boolean settledOn = i + 1 == tail.size()
                    || Math.abs(tail.get(i + 1).level_mm() - tail.get(i).level_mm()) > Math.max(0.005, 0.5 * move);
            if (off > -miss && off < move && settledOn) {
                dwell = i;
                return;
            }
        }
    }

    Finding<DwellLevel.Level> stableZero() {
        if (tail.isEmpty() || tail.get(tail.size() - 1).to() < trace.size() - 2) {
            return Finding.notDetermined(
                    trace.size() == 0
                            ? "no readings: check that the indicator sends"
                            : "the trace ends before the reading stands: hold still at the end");
        }
        if (crest.isPresent() && dwell < 0) {
            return Finding.notDetermined("no stop on the crest after the last pass: stop there and hold still");
        }
        Still last = tail.get(tail.size() - 1);
        return new DwellLevel(trace).settled(last.from(), last.to());
    }

    Finding<DwellLevel.Level> crestDwell() {
        if (dwell < 0) {
            return Finding.notDetermined("no stop on the crest after the last pass");
        }
        Still still = tail.get(dwell);
        if (dwell == tail.size() - 1) {
            return stableZero();
        }
        return Finding.found(new DwellLevel(trace).all(still.from(), still.to()));
    }

    JogClicks clicks(int sign) {
        if (dwell < 0 || dwell == tail.size() - 1) {
            return JogClicks.NONE;
        }
        return JogSteps.decode(
                tail.get(dwell).level_mm(), tail.subList(dwell + 1, tail.size()), trace.total_mm(), sign);
    }

    /** The whole trace cut into what happened. */
    List<Segment> segments() {
        List<Segment> segments = new ArrayList<>();
        if (trace.size() == 0) {
            return segments;
        }
        double[] t = trace.time_s();
        int at = 0;
        int first = fits.isEmpty() ? trace.size() : fits.get(0).readings().from;
        double lowest = Double.POSITIVE_INFINITY;
        for (double v : trace.line_mm()) {
            lowest = Math.min(lowest, v);
        }
        if (!fits.isEmpty()) {
            for (Still still : finder.stills()) {
                if (still.to() <= first && still.level_mm() - lowest < PassFinder.leastMove_mm(trace)) {
                    add(segments, Segment.Kind.OTHER, t, at, still.from());
                    add(segments, Segment.Kind.FREE, t, still.from(), still.to());
                    at = still.to();
                }
            }
            if (!segments.isEmpty()) {
                add(segments, Segment.Kind.PRESS_IN, t, at, first);
                at = first;
            }
            int sweepEnd = dwell >= 0 ? tail.get(dwell).from() : lastCrest();
            add(segments, Segment.Kind.SWEEP, t, at, sweepEnd);
            at = sweepEnd;
            if (dwell >= 0 && dwell < tail.size() - 1) {
                add(segments, Segment.Kind.CREST_DWELL, t, at, tail.get(dwell).to());
                add(
                        segments,
                        Segment.Kind.JOG,
                        t,
                        tail.get(dwell).to(),
                        tail.get(tail.size() - 1).from());
                at = tail.get(tail.size() - 1).from();
            }
        }
        Optional<DwellLevel.Level> zero = stableZero().asOptional();
        if (zero.isPresent()) {
            boolean onCrest = dwell >= 0 && dwell == tail.size() - 1;
            add(
                    segments,
                    onCrest ? Segment.Kind.CREST_DWELL : Segment.Kind.OTHER,
                    t,
                    at,
                    zero.get().from());
            add(
                    segments,
                    Segment.Kind.STABLE_ZERO,
                    t,
                    zero.get().from(),
                    zero.get().to());
            at = zero.get().to();
        }
        add(segments, Segment.Kind.OTHER, t, at, trace.size());
        return segments;
    }

    private static void add(List<Segment> segments, Segment.Kind kind, double[] t, int from, int to) {
        if (to > from) {
            segments.add(new Segment(kind, t[from], t[Math.min(to, t.length - 1)]));
        }
    }
}

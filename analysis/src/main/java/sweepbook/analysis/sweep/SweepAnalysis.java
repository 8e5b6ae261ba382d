package sweepbook.analysis.sweep;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import org.hipparchus.util.FastMath;
import sweepbook.analysis.uncertainty.Estimate;
import sweepbook.analysis.uncertainty.Finding;

/** Takes the readings of a touch to its findings: passes, their common crest, what the person did after the last. */
final class SweepAnalysis {
    private final Told told;
    private final double q;
    private final LengthWords words;
    private final Cadence.Restored readings;
    private final List<String> warnings = new ArrayList<>();

    SweepAnalysis(ReadingStore.Entries entries, Told told) {
        this.told = told;
        this.q = told.words().resolution_mm();
        this.words = told.words();
        this.readings = Cadence.restored(entries, q);
    }

    SweepFindings findings() {
        CleanTrace raised =
                CleanTrace.of(readings.entries().time_s(), readings.entries().reading_mm(), readings.repeats(), q);
        UpwardReading up = new UpwardReading(raised, told);
        UpwardReading down = new UpwardReading(raised.turnedOver(), told);
        SenseOfPressing sense = told.pressing()
                .map(p -> SenseOfPressing.told(p, up, down))
                .orElseGet(() -> SenseOfPressing.seen(up, down));
        int sign = sense.pressing().map(Pressing::sign).orElse(1);
        if (sense.isContradicted()) {
            return contradicted(sign, raised);
        }
        UpwardReading reading = sign > 0 ? up : down;
        reading.conclude();
        List<Segment> segments =
                Course.of(reading.trace(), reading.stills(), reading.first(), reading.last(), reading.tail());
        return report(sense, reading, segments);
    }

    private SweepFindings report(SenseOfPressing sense, UpwardReading reading, List<Segment> segments) {
        int sign = sense.pressing().map(Pressing::sign).orElse(1);
        CleanTrace trace = reading.trace();
        Optional<CommonCrest> crest = reading.crest();
        Tail tail = reading.tail();
        Finding<Estimate> highSpot = crest.map(
                        c -> Finding.found(sense.covering(c.crest().turned(sign))))
                .orElseGet(() -> Finding.notDetermined(whyNoCrest(trace)));
        sense.warning().ifPresent(warnings::add);
        List<Pass> passes = crest.map(c -> c.passes(sign, trace)).orElse(List.of());
        int left = (int) passes.stream().filter(p -> p.setAside().isPresent()).count();
        for (Pass pass : passes) {
            pass.setAside()
                    .ifPresent(why -> warnings.add(
                            String.format(Locale.ROOT, "the pass at %.1f s is set aside: %s", pass.crest_s(), why)));
        }
        if (reading.isGrazed()) {
            warnings.add("the crest was hardly crossed before the stop: sweep right across it");
        } else if (passes.size() - left == 1) {
            warnings.add("only one pass over the crest: sweep again to confirm it");
        }
        crest.filter(c -> c.drift_mm_per_s() != 0)
                .ifPresent(c -> warnings.add("the crest drifts by " + words.of(60 * sign * c.drift_mm_per_s())
                        + " a minute: let the stand settle, or look for a loose clamp"));
        crest.map(c -> Math.abs(c.settled_mm()))
                .filter(moved -> moved > q / 2)
                .ifPresent(moved -> warnings.add("the stand still settled: the first pass was off by " + words.of(moved)
                        + "; wait before the next sweep until the reading stands"));
        Finding<StableZero> zero = tail.stableZero().map(level -> {
            double drift = crest.map(CommonCrest::drift_mm_per_s).orElse(0.0);
            double to = trace.time_s()[level.to() - 1];
            double begin = trace.time_s()[level.from()];
            // Under a drift it matters when the dwell begins.
            double moves = drift + level.slope_mm_per_s();
            double from = moves == 0 ? begin : tail.zeroFrom_s(level);
            double middle = (from + to) / 2;
            double drifted = drift * (middle - crest.map(CommonCrest::middle_s).orElse(middle))
                    + level.slope_mm_per_s() * (middle - (begin + to) / 2);
            Estimate at = level.level();
            return new StableZero(
                    new Estimate(
                            sign * (at.value() + drifted),
                            FastMath.hypot(at.stdU(), moves * tail.zeroFromU_s()),
                            at.degreesOfFreedom(),
                            moves == 0 ? at.breadth() : 1),
                    from,
                    to);
        });
        Finding<Estimate> miss =
                highSpot.flatMap(h -> tail.crestDwell().map(stop -> miss(h, stop, sign, crest.orElseThrow(), trace)));
        if (crest.isPresent() && zero.isFound() && tail.dwell().isEmpty()) {
            warnings.add("no stop on the crest was seen before the zero: what the jog moved is not known");
        }
        JogClicks clicks = tail.clicks(sign);
        tail.offClicks_mm()
                .ifPresent(off -> warnings.add("the jog ends " + words.of(off) + " off a whole number of clicks of "
                        + words.of(clicks.step_mm())
                        + ": look for backlash, or for a slide that sticks and slips"));
        Finding<Estimate> atZero = atZero(highSpot, zero, miss, clicks.count() > 0);
        return new SweepFindings(
                sense.pressing(),
                q,
                reading.noise_mm(),
                highSpot,
                zero,
                miss,
                atZero,
                passes,
                segments,
                clicks,
                warnings);
    }

    /** By how much the stop missed the crest; a drift between them is as uncertain as the passes tell it. */
    private static Estimate miss(
            Estimate highSpot, DwellLevel.Level stop, int sign, CommonCrest crest, CleanTrace trace) {
        Estimate level = stop.level();
        return new Estimate(
                highSpot.value() - sign * level.value(),
                FastMath.hypot(
                        FastMath.hypot(highSpot.stdU(), level.stdU()),
                        crest.driftStdU_mm_per_s() * apart_s(stop, crest, trace)),
                Math.min(highSpot.degreesOfFreedom(), level.degreesOfFreedom()));
    }

    private static double apart_s(DwellLevel.Level stop, CommonCrest crest, CleanTrace trace) {
        return (trace.time_s()[stop.from()] + trace.time_s()[stop.to() - 1]) / 2 - crest.middle_s();
    }

    /** The crests bend the other way than was told: no number is better than a plausible wrong one. */
    private SweepFindings contradicted(int sign, CleanTrace trace) {
        Finding<Estimate> none = Finding.notDetermined(
                sign > 0
                        ? "the crests say that pressing lowers the reading, but raises was told: correct what is told"
                        : "the crests say that pressing raises the reading, but lowers was told: correct what is told");
        double[] time_s = trace.time_s();
        List<Segment> whole = time_s.length == 0
                ? List.of()
                : List.of(new Segment(Segment.Kind.OTHER, time_s[0], time_s[time_s.length - 1]));
        return new SweepFindings(
                told.pressing(),
                q,
                Double.NaN,
                none,
                none.map(e -> new StableZero(e, 0, 0)),
                none,
                none,
                List.of(),
                whole,
                JogClicks.NONE,
                warnings);
    }

    /** What the crest would read at the end: as in the sweep where nothing moved since, else the last dwell and the miss. */
    private Finding<Estimate> atZero(
            Finding<Estimate> highSpot, Finding<StableZero> zero, Finding<Estimate> miss, boolean clicked) {
        if (!highSpot.isFound() || !zero.isFound() || !miss.isFound()) {
            return clicked ? highSpot.flatMap(h -> zero.flatMap(z -> miss)) : highSpot;
        }
        Estimate h = highSpot.asOptional().orElseThrow();
        Estimate z = zero.asOptional().orElseThrow().level();
        Estimate m = miss.asOptional().orElseThrow();
        double away_mm = Math.abs(z.value() - (h.value() - m.value()));
        if (!clicked && away_mm <= Math.max(q, 3 * FastMath.hypot(z.stdU(), m.stdU()))) {
            return highSpot;
        }
        return Finding.found(new Estimate(
                z.value() + m.value(),
                FastMath.hypot(z.stdU(), m.stdU()),
                Math.min(z.degreesOfFreedom(), m.degreesOfFreedom())));
    }

    private static String whyNoCrest(CleanTrace trace) {
        if (trace.size() == 0) {
            return "no readings: check that the indicator sends";
        }
        double low = Double.POSITIVE_INFINITY;
        double high = Double.NEGATIVE_INFINITY;
        for (double v : trace.line_mm()) {
            low = Math.min(low, v);
            high = Math.max(high, v);
        }
        if (high - low <= trace.leastMove_mm()) {
            return "the reading stands still: bring the feature against the contact and sweep it past";
        }
        return "the reading never rises to a crest and falls again: sweep the feature past the contact, over its high"
                + " spot and back";
    }
}

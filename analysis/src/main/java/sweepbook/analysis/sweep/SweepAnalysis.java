package sweepbook.analysis.sweep;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.stream.DoubleStream;
import org.hipparchus.util.FastMath;
import sweepbook.analysis.uncertainty.Estimate;
import sweepbook.analysis.uncertainty.Finding;

/** Takes the readings of a touch to its findings: passes, their common crest, what the person did after the last. */
final class SweepAnalysis {

    /**
     * How much better the trace must make sense the other way round before what was told of the pressing is not believed.
     * Over a thousand simulated sweeps of all kinds the wrong sense never reached 0.9 of the right one.
     */
    private static final double CONTRADICTS = 1.5;

    /** So many votes more for one sense of pressing leave no doubt. */
    private static final double CLEAR_VOTES = 2.5;
    /** What a vote counts beside log probabilities. */
    private static final double VOTE = 2;

    /** Half of the fits miss the crest by no more than this part of the fall. */
    private static final double MISSED_OF_FALL = 0.06;

    private final Told told;
    private final Optional<Pressing> pressingTold;
    private final double q;
    private final LengthWords words;
    private final Cadence.Restored readings;
    private final List<String> warnings = new ArrayList<>();

    SweepAnalysis(ReadingStore.Entries entries, Told told) {
        this.told = told;
        this.pressingTold = told.pressing();
        this.q = told.words().resolution_mm();
        this.words = told.words();
        this.readings = Cadence.restored(entries, q);
    }

    SweepFindings findings() {
        CleanTrace raised =
                CleanTrace.of(readings.entries().time_s(), readings.entries().reading_mm(), readings.repeats(), q);
        Reading up = pressingTold.filter(p -> p == Pressing.LOWERS).isEmpty() ? new Reading(raised, told) : null;
        Reading down = pressingTold.filter(p -> p == Pressing.RAISES).isEmpty()
                ? new Reading(raised.turnedOver(), told)
                : null;
        boolean raises = down == null || up != null && raises(up, down);
        Reading reading = raises ? up : down;
        Optional<Pressing> pressing = pressingTold.isPresent() || reading.finder.score() == 0
                ? pressingTold
                : Optional.of(raises ? Pressing.RAISES : Pressing.LOWERS);
        int sign = pressing.map(Pressing::sign).orElse(1);
        if (pressingTold.isPresent() && isContradicted(reading.finder, sign > 0 ? raised.turnedOver() : raised)) {
            return contradicted(sign, raised);
        }
        reading.conclude();
        List<Segment> segments =
                Course.of(reading.trace, reading.finder.stills(), reading.first, reading.last, reading.tail);
        return report(pressing, reading.noise_mm, sign, reading.trace, reading.crest, reading.tail, segments);
    }

    /** The course of the touch tells the sense of pressing mostly; where it hardly does, how well the crests agree. */
    private static boolean raises(Reading up, Reading down) {
        double votes = up.finder.score() - down.finder.score();
        if (up.finder.score() > 0 && down.finder.score() > 0) {
            // What is swept falls far; a free plunger that rocks does not.
            votes += FastMath.log(up.finder.fall_mm() / down.finder.fall_mm());
        }
        if (Math.min(up.finder.score(), down.finder.score()) == 0 || Math.abs(votes) > CLEAR_VOTES) {
            return votes >= 0;
        }
        up.conclude();
        down.conclude();
        double swept_mm = Math.max(up.finder.fall_mm(), down.finder.fall_mm());
        return VOTE * votes + up.logProbability(swept_mm) - down.logProbability(swept_mm) >= 0;
    }

    /** What a trace says where pressing counts upwards. */
    private static final class Reading {
        private final CleanTrace trace;
        private final Told told;
        private final PassFinder finder;
        private double noise_mm;
        private Optional<CommonCrest> crest = Optional.empty();
        private Tail tail;
        private int first;
        private int last;

        Reading(CleanTrace trace, Told told) {
            this.trace = trace;
            this.told = told;
            finder = new PassFinder(trace, told.standsFrom_s());
        }

        void conclude() {
            if (tail != null) {
                return;
            }
            PassFits passFits = new PassFits(trace, finder);
            List<PassFit> fits = passFits.fits();
            noise_mm = passFits.noise_mm();
            first = fits.isEmpty() ? trace.size() : fits.get(0).readings().from();
            last = fits.isEmpty() ? 0 : fits.get(fits.size() - 1).readings().to();
            if (fits.isEmpty()) {
                tail = new Tail(after(), told, Optional.empty(), finder.fall_mm());
                return;
            }
            double reading_mm = FastMath.hypot(noise_mm, trace.resolution_mm() / FastMath.sqrt(12));
            crest = Optional.of(common(fits, Optional.empty(), reading_mm)).filter(CommonCrest::showsDrift);
            // Smoothed readings clip a crest that few readings show, and half of the fits may have missed it.
            double high = Math.max(
                    upperMedian(finder.windows().stream().mapToDouble(PassFinder.Window::level_mm)),
                    upperMedian(fits.stream().mapToDouble(PassFit::crest_mm)));
            double highest = fits.stream().mapToDouble(PassFit::crest_mm).max().orElse(high);
            high = Math.max(high, Math.min(highest, high + MISSED_OF_FALL * finder.fall_mm()));
            Estimate rough = new Estimate(high, noise_mm, Double.POSITIVE_INFINITY);
            AfterPasses after = after();
            boolean stood = drift_mm_per_s() == 0;
            Optional<CrestStop> stop = new Tail(after, told, Optional.of(rough), finder.fall_mm())
                    .stopOnCrest()
                    .map(this::drifted);
            CommonCrest common = common(fits, stop, reading_mm);
            crest = Optional.of(common);
            tail = new Tail(
                    stood && drift_mm_per_s() == 0 ? after : after(),
                    told,
                    Optional.of(common.crest()),
                    finder.fall_mm());
        }

        private CommonCrest common(List<PassFit> fits, Optional<CrestStop> stop, double reading_mm) {
            return new CommonCrest(fits, stop, trace.time_s()[0], reading_mm, trace.resolution_mm());
        }

        /** What follows the passes, without the drift that is known of so far. */
        private AfterPasses after() {
            double drift = drift_mm_per_s();
            CleanTrace steady = drift == 0
                    ? trace
                    : trace.without(drift, crest.orElseThrow().middle_s());
            return new AfterPasses(steady, told, last, noise_mm);
        }

        private double drift_mm_per_s() {
            return crest.map(CommonCrest::drift_mm_per_s).orElse(0.0);
        }

        private CrestStop drifted(CrestStop stop) {
            return crest.map(c -> stop.drifted(c.drift_mm_per_s() * (stop.time_s() - c.middle_s())))
                    .orElse(stop);
        }

        private static double upperMedian(DoubleStream values) {
            double[] sorted = values.sorted().toArray();
            return sorted[sorted.length / 2];
        }

        /** Beside that of turns of the hand, which lie anywhere in what is swept. */
        double logProbability(double swept_mm) {
            return crest.map(c -> c.logProbability() + finder.windows().size() * FastMath.log(swept_mm))
                    .orElse(Double.NEGATIVE_INFINITY);
        }
    }

    private SweepFindings report(
            Optional<Pressing> pressing,
            double noise,
            int sign,
            CleanTrace trace,
            Optional<CommonCrest> crest,
            Tail tail,
            List<Segment> segments) {
        Finding<Estimate> highSpot = crest.map(c -> Finding.found(turned(c.crest(), sign)))
                .orElseGet(() -> Finding.notDetermined(whyNoCrest(trace)));
        List<Pass> passes = crest.map(c -> c.passes(sign, trace)).orElse(List.of());
        int left = (int) passes.stream().filter(p -> p.setAside().isPresent()).count();
        for (Pass pass : passes) {
            pass.setAside()
                    .ifPresent(why -> warnings.add(
                            String.format(Locale.ROOT, "the pass at %.1f s is set aside: %s", pass.crest_s(), why)));
        }
        if (passes.size() - left == 1) {
            warnings.add("only one pass over the crest: sweep again to confirm it");
        }
        crest.filter(c -> c.drift_mm_per_s() != 0)
                .ifPresent(c -> warnings.add("the crest drifts by " + words.of(60 * sign * c.drift_mm_per_s())
                        + " a minute: let the stand settle, or look for a loose clamp"));
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
        return new SweepFindings(pressing, q, noise, highSpot, zero, miss, atZero, passes, segments, clicks, warnings);
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

    /** A flat face shows no pass as told, and one the other way round where the contact hung free: that tells nothing. */
    private boolean isContradicted(PassFinder asTold, CleanTrace turnedOver) {
        PassFinder otherWayRound = new PassFinder(turnedOver, told.standsFrom_s());
        return asTold.score() > 0
                && otherWayRound.score() > CONTRADICTS * asTold.score()
                && 2 * otherWayRound.fall_mm() > asTold.fall_mm();
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
                pressingTold,
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

    private static Estimate turned(Estimate estimate, int sign) {
        return new Estimate(sign * estimate.value(), estimate.stdU(), estimate.degreesOfFreedom());
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

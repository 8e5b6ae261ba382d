package sweepbook.analysis.sweep;

import java.util.List;
import java.util.Optional;
import java.util.stream.DoubleStream;
import org.hipparchus.util.FastMath;
import sweepbook.analysis.uncertainty.Estimate;

/** What a trace says where pressing counts upwards. */
final class UpwardReading {
    /** Half of the fits miss the crest by no more than this part of the fall. */
    private static final double MISSED_OF_FALL = 0.06;

    private final CleanTrace trace;
    private final Told told;
    private SteadyTrace steady;
    private PassFinder finder;
    private double noise_mm;
    private Optional<CommonCrest> crest = Optional.empty();
    private Tail tail;
    private int first;
    private int last;
    private List<PassFit> fits = List.of();
    private Optional<CommonCrest> passesAlone = Optional.empty();
    private boolean isFitted;

    UpwardReading(CleanTrace trace, Told told) {
        this.trace = trace;
        this.told = told;
        steady = SteadyTrace.of(trace, told.standsFrom_s());
        finder = told.contour() == Contour.ROUND ? steady.finder().orGraze() : steady.finder();
    }

    /** Fits the passes, if they are not yet. */
    private void fitPasses() {
        if (!isFitted) {
            fit();
            passesAlone.filter(CommonCrest::showsDrift).ifPresent(this::findAgainWithout);
            isFitted = true;
        }
    }

    /** Fits the passes and reads what follows them; what is told of these stands from then on. */
    void conclude() {
        if (tail != null) {
            return;
        }
        fitPasses();
        first = fits.isEmpty() ? trace.size() : fits.get(0).readings().from();
        last = fits.isEmpty() ? 0 : fits.get(fits.size() - 1).readings().to();
        if (fits.isEmpty()) {
            tail = new Tail(after(), told, Optional.empty(), finder.fall_mm());
            return;
        }
        crest = passesAlone.filter(CommonCrest::showsDrift);
        // Smoothed readings clip a crest that few readings show, and half of the fits may have missed it.
        double[] time_s = trace.time_s();
        double high = Math.max(
                upperMedian(finder.windows().stream().mapToDouble(w -> steady(w.level_mm(), time_s[w.top()]))),
                upperMedian(crests_mm()));
        double highest = crests_mm().max().orElse(high);
        high = Math.max(high, Math.min(highest, high + MISSED_OF_FALL * finder.fall_mm()));
        Estimate rough = new Estimate(high, noise_mm, Double.POSITIVE_INFINITY);
        AfterPasses after = after();
        boolean stood = drift_mm_per_s() == 0;
        Tail seen = new Tail(after, told, Optional.of(rough), finder.fall_mm());
        Optional<CrestStop> stop = seen.stopOnCrest().map(this::drifted);
        List<RestSlope> slopes = seen.slopes().stream()
                .map(slope -> slope.drifted(drift_mm_per_s()))
                .toList();
        CommonCrest common = common(stop, slopes);
        crest = Optional.of(common);
        tail = new Tail(
                stood && drift_mm_per_s() == 0 ? after : after(), told, Optional.of(common.crest()), finder.fall_mm());
    }

    private void fit() {
        PassFits passFits = new PassFits(steady.trace(), finder);
        fits = passFits.fits();
        noise_mm = passFits.noise_mm();
        passesAlone = fits.isEmpty() ? Optional.empty() : Optional.of(common(Optional.empty(), List.of()));
    }

    /** A drift hides where the hand stood, and parts passes or makes some of what are none: without it they are looked for again. */
    private void findAgainWithout(CommonCrest drifting) {
        SteadyTrace without =
                SteadyTrace.without(drifting.drift_mm_per_s(), drifting.middle_s(), trace, told.standsFrom_s());
        if (!without.finder().windows().isEmpty() && !without.showsTheSameAs(steady)) {
            steady = without;
            finder = without.finder();
            fit();
        }
    }

    private CommonCrest common(Optional<CrestStop> stop, List<RestSlope> slopes) {
        double reading_mm = FastMath.hypot(noise_mm, trace.resolution_mm() / FastMath.sqrt(12));
        return new CommonCrest(fits, steady, stop, slopes, reading_mm);
    }

    /** What follows the passes, without the drift that is known of so far. */
    private AfterPasses after() {
        double drift = drift_mm_per_s();
        CleanTrace stands =
                drift == 0 ? trace : trace.without(drift, crest.orElseThrow().middle_s());
        return new AfterPasses(stands, told, last, noise_mm);
    }

    /** Of the single passes, without the drift that is known of so far. */
    private DoubleStream crests_mm() {
        return fits.stream().mapToDouble(fit -> steady(fit.crest_mm(), fit.crest_s()));
    }

    /** A level in the trace in which the passes were found, without the drift that is known of so far. */
    private double steady(double level_mm, double time_s) {
        double drifted =
                crest.map(c -> c.drift_mm_per_s() * (time_s - c.middle_s())).orElse(0.0);
        return level_mm + steady.moved_mm(time_s) - drifted;
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

    boolean showsPass() {
        return !finder.windows().isEmpty();
    }

    /** Whether all there is, is a crest that was reached and hardly crossed. */
    boolean isGrazed() {
        return finder.isGrazed();
    }

    /** How far the deepest pass falls. */
    double fall_mm() {
        return finder.fall_mm();
    }

    /** How well the course of the touch makes sense where pressing counts upwards. */
    double logOdds() {
        return finder.odds().besideTurns() + finder.odds().agreement();
    }

    /**
     * The same by what the fits tell in the place of the tops; nothing is less where none of them shows a crest.
     *
     * @param swept_mm in which turns of a hand lie anywhere
     */
    double fittedLogOdds(double swept_mm) {
        fitPasses();
        CrestOdds.Odds odds = finder.odds();
        return passesAlone
                .map(alone -> odds.besideTurns()
                        + FitOdds.agreement(alone, fits.size(), odds.agreement(), swept_mm)
                        + FitOdds.calm(fits))
                .orElse(Double.NEGATIVE_INFINITY);
    }

    /** Without a drift that parts the passes. */
    CleanTrace trace() {
        return steady.trace();
    }

    List<Still> stills() {
        return finder.stills();
    }

    /** The crest that the passes and the stop share, empty where there is none. */
    Optional<CommonCrest> crest() {
        conclude();
        return crest;
    }

    /** The first reading of the first pass, the trace's size where there is none. */
    int first() {
        return first;
    }

    /** The reading after the last pass. */
    int last() {
        return last;
    }

    Tail tail() {
        return tail;
    }

    /** Standard deviation of a reading about the motion. */
    double noise_mm() {
        return noise_mm;
    }
}

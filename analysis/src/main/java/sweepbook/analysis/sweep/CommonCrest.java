package sweepbook.analysis.sweep;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.stream.IntStream;
import org.hipparchus.util.FastMath;
import sweepbook.analysis.uncertainty.Estimate;

/**
 * The one crest that all passes share, up to a linear drift, told by what each of them says at the curvature of the contact on
 * which they agree; and why a pass is set aside.
 */
final class CommonCrest {
    /** The stand that was touched when the trace began may still swing. */
    private static final double UNSETTLED = 0.4;
    /** But less and less. */
    private static final double SETTLES_s = 1.2;
    /** A swing that is less probable is not spoken of. */
    private static final double MENTIONED = 0.02;
    /** Any stand may be touched again. */
    private static final double TOUCHED = 0.01;
    /** By so much, in resolutions. */
    private static final double SWING = 2.5;
    /** Model error of a pass, in resolutions. */
    private static final double FLOOR = 0.025;
    /** The same where the hand paused near the crest, in standard deviations of a reading. */
    private static final double PAUSE = 0.2;
    /** In resolutions: so little apart, passes that do not agree may each be right. */
    private static final double NEAR = 4;
    /** Where a drift shows, whether a low pass crossed the crest moves what is told: its standard uncertainty, as a part of that. */
    private static final double NO_CROSSING = 0.5;
    /** In swings. */
    private static final double FAR = 3;

    private final List<PassFit> fits;
    private final List<PassCrest> passes = new ArrayList<>();
    private final Agreement agreement;
    private final CrestDistribution distribution;
    private final double bendStdU;
    /** Null until somebody asks for it: not every sense of pressing gets so far. */
    private Estimate crest;

    /** @param steady in which the passes were fitted */
    CommonCrest(
            List<PassFit> fits,
            SteadyTrace steady,
            Optional<CrestStop> stop,
            List<RestSlope> slopes,
            double reading_mm) {
        this.fits = fits;
        PassLikelihood.Bend known = PassLikelihood.Bend.UNKNOWN;
        double prior = 1 / (known.spread() * known.spread());
        double information = prior;
        double weighted = known.mean() * prior;
        for (PassFit fit : fits) {
            // What the pass says beyond the prior that every fit has put in once.
            double own = 1 / fit.bendVariance() - prior;
            if (own > 0) {
                information += own;
                weighted += fit.bend() / fit.bendVariance() - known.mean() * prior;
            }
        }
        double bend = weighted / information;
        double start_s = steady.trace().time_s()[0];
        double resolution_mm = steady.trace().resolution_mm();
        double floor_mm2 = FLOOR * FLOOR * resolution_mm * resolution_mm;
        double pause_mm2 = PAUSE * PAUSE * reading_mm * reading_mm;
        for (PassFit fit : fits) {
            passes.add(new PassCrest(
                    fit.crest_s(),
                    steady.moved_mm(fit.crest_s()) + fit.crest_mm() + fit.crestByBend() * (bend - fit.bend()),
                    fit.crestVarianceAtBend_mm2() + floor_mm2 + (fit.readings().pauses() ? pause_mm2 : 0),
                    fit.crestByBend(),
                    TOUCHED + UNSETTLED * FastMath.exp((start_s - fit.crest_s()) / SETTLES_s),
                    SWING * resolution_mm));
        }
        agreement = new Agreement(passes, stop, slopes, start_s, resolution_mm);
        distribution = new CrestDistribution(passes, agreement, stop, NEAR * resolution_mm);
        bendStdU = FastMath.sqrt(1 / information);
    }

    Estimate crest() {
        if (crest == null) {
            double drifts_mm = drift_mm_per_s() * (middle_s() - agreement.middle_s());
            crest = distribution.crest(bendStdU).less(-drifts_mm).with(NO_CROSSING * drifts_mm);
        }
        return crest;
    }

    /** Standard uncertainty of the level on which the passes agree, at the most probable course of theirs. */
    double levelStdU_mm() {
        return agreement.line().levelStdU_mm();
    }

    /** Log of how well the passes, and the stop, make sense together. */
    double logProbability() {
        return agreement.logProbability();
    }

    /** Whether the passes themselves show a drift: two always lie on a line. */
    boolean showsDrift() {
        return drift_mm_per_s() != 0 && agreement.count() > 2;
    }

    double drift_mm_per_s() {
        return agreement.drift_mm_per_s();
    }

    /** Standard uncertainty of the drift, seen or not. */
    double driftStdU_mm_per_s() {
        return FastMath.hypot(agreement.driftStdU_mm_per_s(), agreement.unseenDrift_mm_per_s());
    }

    /** How far the crest was moved in the first pass by a stand that came to rest; 0 where none is seen. */
    double settled_mm() {
        CrestLine line = agreement.line();
        return line.trend() instanceof Trend.Settling
                ? line.moved_mm(passes.get(0).time_s())
                : 0;
    }

    /** Mean time of the crossings, at which the crest is given: what is set aside as too low hardly crossed the crest. */
    double middle_s() {
        return IntStream.range(0, passes.size())
                .filter(i -> agreement.agrees(i) || !agreement.tells(i) || off_mm(i) > 0)
                .mapToDouble(i -> passes.get(i).time_s())
                .average()
                .orElseGet(agreement::middle_s);
    }

    private double off_mm(int pass) {
        return agreement.line().off_mm(passes.get(pass));
    }

    /** The passes as findings, in the trace's own direction. */
    List<Pass> passes(int sign, CleanTrace trace) {
        List<Pass> list = new ArrayList<>();
        for (int i = 0; i < passes.size(); i++) {
            PassReadings readings = fits.get(i).readings();
            list.add(new Pass(
                    trace.time_s()[readings.from()],
                    passes.get(i).time_s(),
                    trace.time_s()[readings.to() - 1],
                    sign * passes.get(i).crest_mm(),
                    fits.get(i).stdU_mm(),
                    agreement.agrees(i) ? Optional.empty() : Optional.of(why(i))));
        }
        return list;
    }

    private String why(int pass) {
        if (!agreement.tells(pass)) {
            return "it hardly shows where the crest is: sweep right across it";
        }
        PassCrest one = passes.get(pass);
        double off = off_mm(pass);
        String stand = one.unsettled() > MENTIONED && Math.abs(off) < FAR * one.swing_mm()
                ? "the stand had not settled, "
                : "";
        return off < 0
                ? "its top lies below the others': " + stand
                        + "the hand turned short of the crest, or the surface has a dent"
                : "its top lies above the others': " + stand + "a chip, a burr or a bump on the surface";
    }
}

package sweepbook.analysis.sweep;

import java.util.List;
import org.hipparchus.util.FastMath;

/** What the fits of some passes say for these to cross a crest, in log odds beside turns of a hand. */
final class FitOdds {
    /** A stand that swings through the whole sweep moves the crests of all passes. */
    private static final double ALL_SWUNG = 0.1;
    /** A pass is disturbed, and its motion not what the hand made it. */
    private static final double DISTURBED = 0.1;
    /** A turn that happens to look like a crest. */
    private static final double MOST_CALM = 3;
    /** Whoever sweeps in clicks that noise hides, or a slide that sticks and slips, makes turns that look calmer than crests. */
    private static final double NO_HAND = 0.5;

    private static final double LEAST_SHARE = 1e-12;

    private FitOdds() {}

    /**
     * How the crests agree.
     *
     * @param rough what the tops themselves said of that
     * @param swept_mm in which turns of a hand lie anywhere
     */
    static double agreement(CommonCrest crest, int passes, double rough, double swept_mm) {
        // The crest itself lies anywhere too.
        double log = crest.logProbability()
                + (passes - 1) * FastMath.log(swept_mm)
                + FastMath.log(FastMath.sqrt(2 * FastMath.PI) * crest.levelStdU_mm());
        double fine = passes == 1 ? log : CrestOdds.agreement(passes, FastMath.exp(-log / (passes - 1)));
        return FastMath.log((1 - ALL_SWUNG) * FastMath.exp(fine) + ALL_SWUNG * FastMath.exp(rough));
    }

    /**
     * A calm hand makes a crest round, and a turn of it is none; a hand that may do anything makes both look alike. The same hand
     * makes all passes.
     */
    static double calm(List<PassFit> fits) {
        List<PassFit> inTime =
                fits.stream().filter(fit -> !fit.readings().isCounted()).toList();
        int hands = Hand.GRID.size();
        double sum = 0;
        for (int g = 0; g < hands; g++) {
            double odds = 1;
            for (PassFit fit : inTime) {
                double wild = Math.max(LEAST_SHARE, fit.share(Hand.GRID.indexOf(Hand.WILD)));
                odds *= (1 - DISTURBED) * fit.share(g) / wild + DISTURBED;
            }
            sum += odds / hands;
        }
        double calm = FastMath.exp(Math.min(MOST_CALM, FastMath.log(sum)));
        return FastMath.log((1 - NO_HAND) * calm + NO_HAND);
    }
}

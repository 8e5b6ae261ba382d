package sweepbook.analysis.sweep;

import java.util.Optional;
import org.hipparchus.util.FastMath;
import sweepbook.analysis.uncertainty.Estimate;

/**
 * What pressing does to the reading, and how sure that is.
 *
 * @param pressing as told, or as the trace shows it; empty where it shows no pass
 * @param odds log of how much more probable it is than the other sense
 * @param other the high spot that the other sense would give, in the trace's own direction; empty where it counts for nothing
 */
record SenseOfPressing(Optional<Pressing> pressing, double odds, Optional<Estimate> other) {
    /** Log odds of the course of a touch that leave no doubt. */
    private static final double CLEAR = 7;
    /** Log odds at which the other sense has one probability in twenty: U95 has to hold it. */
    private static final double DOUBTFUL = FastMath.log(19);
    /** What is told is wrong once in a hundred times, and nine of ten refusals have to be right. */
    private static final double CONTRADICTS = FastMath.log(99) + FastMath.log(9);

    private static final double NORMAL_95 = Estimate.tFactor(0.95, Double.POSITIVE_INFINITY);

    /** The course of the touch tells mostly; where it hardly does, how the passes fit a crest and agree. */
    static SenseOfPressing seen(UpwardReading up, UpwardReading down) {
        if (!up.showsPass() && !down.showsPass()) {
            return new SenseOfPressing(Optional.empty(), 0, Optional.empty());
        }
        double course = up.logOdds() - down.logOdds();
        double odds = Math.abs(course) < CLEAR ? fitted(up, down) : course;
        boolean raises = odds >= 0;
        Optional<Estimate> other = Math.abs(odds) >= DOUBTFUL
                ? Optional.empty()
                : (raises ? down : up).crest().map(c -> c.crest().turned(raises ? -1 : 1));
        return new SenseOfPressing(Optional.of(raises ? Pressing.RAISES : Pressing.LOWERS), Math.abs(odds), other);
    }

    /** A flat face shows no pass as told, and one the other way round where the contact hung free: that tells nothing. */
    static SenseOfPressing told(Pressing pressing, UpwardReading up, UpwardReading down) {
        UpwardReading asTold = pressing == Pressing.RAISES ? up : down;
        UpwardReading turned = pressing == Pressing.RAISES ? down : up;
        boolean tells = asTold.showsPass()
                && turned.showsPass()
                && turned.logOdds() > asTold.logOdds()
                && 2 * turned.fall_mm() > asTold.fall_mm();
        return new SenseOfPressing(Optional.of(pressing), tells ? fitted(asTold, turned) : 0, Optional.empty());
    }

    /** By the course and by how the passes fit, how much likelier one sense is than the other. */
    private static double fitted(UpwardReading one, UpwardReading other) {
        double swept_mm = Math.max(one.fall_mm(), other.fall_mm());
        double odds = one.fittedLogOdds(swept_mm) - other.fittedLogOdds(swept_mm);
        return Double.isNaN(odds) ? one.logOdds() - other.logOdds() : odds;
    }

    /** Whether the trace says clearly the opposite of what was told. */
    boolean isContradicted() {
        return odds < -CONTRADICTS;
    }

    /** The high spot with a U95 that holds what the other sense gives, where that may be the true one. */
    Estimate covering(Estimate highSpot) {
        return other.map(o -> {
                    double reach = Math.abs(o.value() - highSpot.value()) + Math.max(o.u95(), highSpot.u95());
                    return new Estimate(highSpot.value(), reach / NORMAL_95, Double.POSITIVE_INFINITY);
                })
                .orElse(highSpot);
    }

    /** What the person should do about the doubt. */
    Optional<String> warning() {
        return other.map(o -> "the trace hardly tells whether pressing raises or lowers the reading: say so"
                + " with --pressing, or in the plan");
    }
}

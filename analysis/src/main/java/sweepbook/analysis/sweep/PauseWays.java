package sweepbook.analysis.sweep;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.function.Function;
import org.hipparchus.util.FastMath;

/**
 * The pauses that a hand may have made where a reading stands still near a crest: short of it, on it or past it. When each began
 * and ended is where the motion before has come to the hand's place, and the motion after goes on from there.
 */
final class PauseWays {
    /** Share of the hands that pause while they cross the crest. */
    private static final double PAUSES = 0.2;
    /** Where the hand stood, beside the farthest place that noise cannot tell from the crest; they cover all places about evenly. */
    private static final double[] PLACES = {-0.75, -0.25, 0.25, 0.75};

    private static final double SPREAD = 0.25;
    /** An even motion explains a shorter one as well. */
    private static final double SHORTEST_s = 0.2;
    /** After so many the times hardly change. */
    private static final int ROUNDS = 4;
    /** Of a still stretch, no more is taken for the motion over the crest to begin with. */
    private static final double MOST_MOVING = 0.7;

    private final CleanTrace trace;
    private final Function<Optional<Pause>, PassReadings> pass;
    private final Function<PassReadings, Rounding> rounding;

    /** @param pass the readings of a pass, by the pause that the hand made */
    PauseWays(
            CleanTrace trace, Function<Optional<Pause>, PassReadings> pass, Function<PassReadings, Rounding> rounding) {
        this.trace = trace;
        this.pass = pass;
        this.rounding = rounding;
    }

    /** The pass by each of the pauses. */
    List<PassReadings> of(PassFinder.Window window) {
        double[] t = trace.time_s();
        double farthest = FastMath.sqrt(trace.leastMove_mm());
        double still = FastMath.sqrt(trace.band_mm());
        List<PassReadings> ways = new ArrayList<>();
        for (Still pause : window.pauses()) {
            double seconds = pause.seconds(trace);
            double moving_s = t[window.to() - 1] - t[window.from()] - seconds;
            // As long as the crest itself, passed evenly, looks still.
            double crest_s = Math.min(moving_s * still / FastMath.sqrt(window.fall_mm()), MOST_MOVING * seconds);
            for (double place : PLACES) {
                double before_s = crest_s * Math.max(0, Math.min(1, (1 + place * farthest / still) / 2));
                Pause begin = new Pause(
                        t[pause.from()] + before_s,
                        t[pause.to() - 1] - (crest_s - before_s),
                        place * farthest,
                        SPREAD * farthest,
                        still,
                        FastMath.log(PAUSES / PLACES.length));
                settled(begin, crest_s).ifPresent(ways::add);
            }
        }
        return ways;
    }

    /** Where that leaves a pause. */
    private Optional<PassReadings> settled(Pause begin, double farthest_s) {
        PassReadings readings = pass.apply(Optional.of(begin));
        Rounding noise = rounding.apply(readings);
        RoughMotion rough = new RoughMotion(readings, FastMath.sqrt(noise.variance_mm2()), PassLikelihood.Bend.UNKNOWN);
        double[] p = rough.uneven();
        for (int round = 0; round < ROUNDS; round++) {
            PassLikelihood likelihood = new PassLikelihood(readings, noise, PassLikelihood.Bend.UNKNOWN);
            p = new Ascent(likelihood, Hand.USUAL, rough.logSpeed()).parametersFrom(likelihood.at(p));
            Pause pause = likelihood.settled(p, farthest_s);
            if (pause.seconds() < SHORTEST_s) {
                return Optional.empty();
            }
            readings = pass.apply(Optional.of(pause));
            if (readings.size() < PassFit.FEWEST || readings.stood_mm.length == 0) {
                return Optional.empty();
            }
        }
        return Optional.of(readings);
    }
}

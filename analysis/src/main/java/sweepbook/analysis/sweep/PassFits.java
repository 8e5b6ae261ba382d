package sweepbook.analysis.sweep;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import org.hipparchus.util.FastMath;

/**
 * Every pass of a sweep fitted twice. The noise of the stretches at rest serves in the first round; in the second each pass
 * has its own, between that one and what its residuals say, and the hand's unevenness of all passes for a prior.
 */
final class PassFits {
    /** Degrees of freedom that the noise at rest counts beside those of a pass. */
    private static final double REST_WEIGHT = 15;
    /** Residuals whose square is so many times that of the noise at rest hint at a motion that is not smooth. */
    private static final double JUMPY = 1.4;
    /** So many times the noise at rest is another noise. */
    private static final double NOISIER = 1.15;
    /** What is taken for granted, in resolutions: less noise does not show. */
    private static final double LEAST_NOISE = 0.15;
    /** The same of a motion that leaps over digits from each reading to the next. */
    private static final double LEAST_OF_LEAPS = 0.07;
    /** No less is seen where the digits tell it, in resolutions and as a part of how far the motion goes between two readings. */
    private static final double LEAST_SEEN = 0.03;

    private static final double OF_MOVE = 0.3;
    /** Share of the readings; those few beside them that are taken for spikes lead no fit astray. */
    private static final double NEARLY_ALL = 0.99;
    /** Counting in clicks has to lessen the squared residuals by so much. */
    private static final double CLEARLY = 1.3;
    /** But for spikes and what is read in the midst of a click, all readings lie on the levels of the clicks. */
    private static final double ON_LEVELS = 0.9;
    /** Likelihoods are summed over no more readings than this; beyond it every second or third serves. */
    private static final int MOST_FITTED = 1000;
    /** Where neighbours are averaged: nothing is lost but what a hand does within a mean. */
    private static final int MOST_MEANS = 400;

    private static final double LEAST_mm = 1e-7;
    private static final int MOST_DECODED = 3000;
    /** Above this part of a step, noise makes the mean of rounded readings as good as the readings. */
    private static final double AVERAGES = 0.45;

    private final CleanTrace trace;
    private final double resolution_mm;
    private final double leastNoise_mm;
    /** Told by the passes where the display hides it. */
    private final OptionalDouble hidden_mm;

    private final List<PassFit> fits = new ArrayList<>();
    private final double[] hands = new double[Hand.GRID.size()];
    private final double noise_mm;

    PassFits(CleanTrace trace, PassFinder finder) {
        this.trace = trace;
        resolution_mm = trace.resolution_mm();
        leastNoise_mm = Math.max(LEAST_NOISE * resolution_mm, LEAST_mm);
        hidden_mm = DigitFlicker.noise_mm(trace, finder.windows());
        double rest = hidden_mm.orElseGet(
                () -> Math.max(RestNoise.of(trace, finder.stills()).orElse(trace.noise_mm()), leastNoise_mm));
        Arrays.fill(hands, 1.0 / hands.length);
        List<PassFit> inTime = new ArrayList<>();
        List<List<PassFit>> ways = new ArrayList<>();
        for (PassFinder.Window w : finder.windows()) {
            List<PassFit> each =
                    ways(w, rest).stream().flatMap(r -> fit(r, rest).stream()).toList();
            each.stream()
                    .max((x, y) -> Double.compare(x.logEvidence(), y.logEvidence()))
                    .ifPresent(best -> {
                        inTime.add(best);
                        ways.add(each);
                    });
        }
        List<PassFit> first = inClicks(inTime, rest);
        learnUnevenness(first);
        double squares = 0;
        double weight = 0;
        for (int i = 0; i < first.size(); i++) {
            PassFit fit = first.get(i);
            List<PassFit> way = ways.get(i);
            double sigma = noise_mm(fit, rest);
            squares += fit.weight() * sigma * sigma;
            weight += fit.weight();
            (fit.readings().isCounted()
                            ? countedAgain(fit, rest, sigma)
                            : again(fit, rest, sigma).map(f -> f.orElse(others(f, way, rest, sigma))))
                    .ifPresent(fits::add);
        }
        noise_mm = weight > 0 ? FastMath.sqrt(squares / weight) : rest;
    }

    /** The passes that show a crest, in time order. */
    List<PassFit> fits() {
        return fits;
    }

    /** Standard deviation of a reading about the motion, without rounding. */
    double noise_mm() {
        return noise_mm;
    }

    private Optional<PassFit> fit(PassReadings readings, double sigma) {
        return PassFit.of(readings, rounding(readings, sigma), PassLikelihood.Bend.UNKNOWN, hands);
    }

    /** From where it ended under the noise at rest, unless that was too small and spikes were seen that may be none. */
    private Optional<PassFit> again(PassFit fit, double rest, double sigma) {
        PassReadings readings = fit.readings();
        return sigma > NOISIER * rest && fit.belonging() < NEARLY_ALL
                ? fit(readings, sigma)
                : fit.again(rounding(readings, sigma), PassLikelihood.Bend.UNKNOWN, hands);
    }

    private Optional<PassFit> countedAgain(PassFit fit, double rest, double sigma) {
        boolean anew = sigma > NOISIER * rest || sigma < rest / NOISIER;
        return anew ? ClickModes.again(fit, rounding(fit.readings(), sigma)) : Optional.of(fit);
    }

    /** The noise of a pass: where the digits tell it and the motion is smooth, that; else by its residuals and by the rests. */
    private double noise_mm(PassFit fit, double rest) {
        double rounding_mm2 = resolution_mm * resolution_mm / 12;
        if (hidden_mm.isPresent() && !isJumpy(fit, rest * rest + rounding_mm2)) {
            return rest;
        }
        double own = Math.max(fit.perReading_mm2() - rounding_mm2, 0);
        return FastMath.sqrt((REST_WEIGHT * rest * rest + fit.weight() * own) / (REST_WEIGHT + fit.weight()));
    }

    private Rounding rounding(PassReadings readings, double sigma) {
        double mean = FastMath.sqrt(readings.perReading());
        double step_mm = resolution_mm / mean;
        if (readings.isCounted()) {
            return new Rounding(Math.max(sigma, leastNoise_mm) / mean, step_mm);
        }
        double moves_mm = readings.flankStep_mm();
        if (moves_mm > resolution_mm) {
            double least_mm = Math.max(LEAST_OF_LEAPS * resolution_mm, LEAST_mm);
            return Rounding.ofLeaps(Math.max(sigma, least_mm) / mean, step_mm);
        }
        double least_mm =
                hidden_mm.isPresent() ? Math.max(LEAST_SEEN * resolution_mm, OF_MOVE * moves_mm) : leastNoise_mm;
        return new Rounding(Math.max(sigma, least_mm) / mean, step_mm);
    }

    /** How uneven the hand was in all passes is what each of them is expected to be. */
    private void learnUnevenness(List<PassFit> first) {
        double doubt = 0.3;
        for (int g = 0; g < hands.length; g++) {
            double sum = doubt;
            for (PassFit fit : first) {
                sum += fit.share(g);
            }
            hands[g] = sum / (first.size() + doubt * hands.length);
        }
    }

    /** What the hand may have done in a window: it moved on, or it paused near the crest. */
    private List<PassReadings> ways(PassFinder.Window window, double rest) {
        List<PassReadings> ways = new ArrayList<>();
        ways.add(readings(window, rest, Optional.empty()));
        if (ways.get(0).size() >= PassFit.FEWEST) {
            ways.addAll(
                    new PauseWays(trace, pause -> readings(window, rest, pause), r -> rounding(r, rest)).of(window));
        }
        return ways.stream()
                .filter(readings -> readings.size() >= PassFit.FEWEST)
                .toList();
    }

    private PassReadings readings(PassFinder.Window window, double rest, Optional<Pause> pause) {
        PassReadings readings = PassReadings.of(trace, window.from(), window.to(), window.top(), window.stops(), pause);
        return rest > AVERAGES * resolution_mm ? readings.averaged(MOST_MEANS) : readings.every(MOST_FITTED);
    }

    /** Other explanations of a pass: other pauses of the hand. */
    private List<PassFit> others(PassFit fit, List<PassFit> ways, double rest, double sigma) {
        return ways.stream()
                .filter(way -> way.readings() != fit.readings())
                .flatMap(way -> again(way, rest, sigma).stream())
                .toList();
    }

    /** Every pass counted in clicks where it shows them, or where their size is known from another pass, else as it is. */
    private List<PassFit> inClicks(List<PassFit> inTime, double rest) {
        Rounding rounding = new Rounding(Math.max(rest, leastNoise_mm), resolution_mm);
        List<PassFit> counted = new ArrayList<>();
        for (PassFit fit : inTime) {
            counted.add(
                    isJumpy(fit, rounding.variance_mm2())
                            ? ClickLattice.of(trace, fit, rounding.variance_mm2())
                                    .flatMap(lattice -> counted(fit, lattice, rounding))
                                    .orElse(fit)
                            : fit);
        }
        Optional<PassFit> best = counted.stream()
                .filter(fit -> fit.readings().isCounted())
                .min(Comparator.comparingDouble(PassFit::perReading_mm2));
        for (int i = 0; i < counted.size() && best.isPresent(); i++) {
            PassFit fit = counted.get(i);
            if (fit != best.get()) {
                counted(inTime.get(i), ClickLattice.like(best.get(), inTime.get(i)), rounding)
                        .filter(other -> !fit.readings().isCounted() || other.logEvidence() > fit.logEvidence())
                        .ifPresent(other -> counted.set(counted.indexOf(fit), other));
            }
        }
        return counted;
    }

    private static boolean isJumpy(PassFit fit, double variance_mm2) {
        return fit.perReading_mm2() >= JUMPY * variance_mm2;
    }

    /** A pass counted in clicks, where that explains it clearly better than time does. */
    private Optional<PassFit> counted(PassFit inTime, ClickLattice lattice, Rounding rounding) {
        PassReadings time = inTime.readings();
        PassReadings all = PassReadings.of(trace, time.from(), time.to(), time.top(), List.of(), Optional.empty())
                .every(MOST_DECODED);
        return ClickModes.of(all, rounding, inTime, lattice)
                .filter(clicks -> clicks.perReading_mm2() < inTime.perReading_mm2() / CLEARLY)
                .filter(clicks -> clicks.belonging() > ON_LEVELS);
    }
}

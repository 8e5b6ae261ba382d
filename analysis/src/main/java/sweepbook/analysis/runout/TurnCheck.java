package sweepbook.analysis.runout;

import java.util.Locale;
import java.util.Optional;
import java.util.stream.IntStream;
import sweepbook.analysis.runout.angle.Turning;
import sweepbook.analysis.runout.fit.Misfit;
import sweepbook.analysis.runout.fit.MotionSearch;
import sweepbook.analysis.runout.fit.Profile;
import sweepbook.analysis.runout.fit.Samples;
import sweepbook.analysis.runout.fit.Spikes;
import sweepbook.analysis.runout.fit.StandStill;

/** Looks for signs that the part did not turn as the figures suppose; each objection says where, and what to do. */
final class TurnCheck {
    /** Structure left by the fit, as a share of the profile, that makes its figures worthless. */
    private static final double WORTHLESS_SHARE = 0.3;
    /** Turns that lie off each other by a larger angle were not turned as is thought. */
    private static final double MOST_SLIP_RAD = Math.toRadians(4);

    private static final double WORTHLESS_STEPS = 0.7;
    /** A first harmonic this small beside another one: the readings repeat within what is taken for a turn. */
    private static final double NO_FIRST = 0.02;
    /** Spikes are single readings; so many in a row, over so much of a turn, are none. */
    private static final int LONG_RUN = 6;

    private static final double LONG_RUN_RAD = 2 * Math.PI / 36;
    /** With so many marks a turn the angle is known whatever the hand did between them. */
    private static final int MANY_MARKS = 4;

    /** So many marks a turn tell the angle of a part turned by hand, even where it was seen only once. */
    static final int MARKS_BY_HAND = 9;
    /** Readings of fewer turns cannot be held against each other. */
    static final double FEW_TURNS_RAD = 4 * Math.PI;

    /** Of what an uneven turning goes before the first mark and after the last so much is sure. */
    static final double SURE_SHARE = 0.6;

    /** Of a sine, in root mean squares. */
    private static final double PEAK_TO_VALLEY = 2 * Math.sqrt(2);

    /** A turning that slows down so much is worth a word. */
    private static final double UNEVEN_SHARE = 0.55;

    private final Samples all;
    private final MotionSearch found;
    private final int marksPerTurn;
    private final Turning turning;
    private final double usualSpeed_rad_per_s;

    /** @param marksPerTurn 0 where there are none */
    TurnCheck(Samples all, MotionSearch found, int marksPerTurn) {
        this.all = all;
        this.found = found;
        this.marksPerTurn = marksPerTurn;
        turning = found.fit().turning();
        usualSpeed_rad_per_s = usualSpeed(turning);
    }

    private static double usualSpeed(Turning turning) {
        double[] speed = new double[turning.knots()];
        for (int k = 0; k < speed.length; k++) {
            speed[k] = turning.knotSpeed_rad_per_s(k);
        }
        return Spikes.quantile(speed, 0.5);
    }

    Optional<String> objection() {
        return unevenness()
                .or(this::standStill)
                .or(this::fewMarksByHand)
                .or(this::seenOnceByHand)
                .or(this::lessThanATurn)
                .or(this::driftForATurn)
                .or(this::misfit)
                .or(this::runOfMisfits)
                .or(() -> marksPerTurn == 0
                        ? Optional.empty()
                        : repeatsWithinATurn(found.fit().profile()));
    }

    private static String seconds(double time_s) {
        return String.format(Locale.ROOT, "%.2f s", time_s);
    }

    private String remedy() {
        return marksPerTurn == 0 ? "turn at even speed, or mark the turns" : "turn again without a stop";
    }

    private Optional<String> unevenness() {
        int slowest = slowestKnot();
        // Few marks do not tell how a changing speed went between them: neither may it be much faster for a while.
        double share =
                turning.knotSpeed_rad_per_s(slowest) / (marksPerTurn < MANY_MARKS ? fastest() : usualSpeed_rad_per_s);
        double least = marksPerTurn < MANY_MARKS ? 0.6 : 0.33;
        return share >= least
                ? Optional.empty()
                : Optional.of("at about " + seconds(turning.knot_s(slowest)) + " the turning "
                        + (share < 0 ? "went back" : "slowed down or stopped") + "; " + remedy());
    }

    private Optional<String> fewMarksByHand() {
        return marksPerTurn >= MANY_MARKS || !found.isByHand()
                ? Optional.empty()
                : Optional.of("the turning was so uneven that "
                        + (marksPerTurn == 0 ? "without marks" : "with so few marks")
                        + " the angle in between is not known; turn evenly, or by hand with eight marks a turn or more"
                        + (marksPerTurn == 0 ? "" : " (if there are more, say how many with --marks-per-turn)"));
    }

    private double span_rad() {
        return turning.angle_rad(all.to_s()) - turning.angle_rad(all.from_s());
    }

    private Optional<String> seenOnceByHand() {
        return Boolean.getBoolean("norule")
                        || marksPerTurn >= MARKS_BY_HAND
                        || span_rad() >= FEW_TURNS_RAD
                        || !found.isByHand()
                ? Optional.empty()
                : Optional.of("in less than two turns by hand with " + marksPerTurn
                        + " marks a turn a stop, or a mark told late, would not show; turn twice or more, or with twelve"
                        + " marks a turn");
    }

    private Optional<String> lessThanATurn() {
        double[] mark_rad = found.anchors().angle_rad();
        double marked_rad = mark_rad[mark_rad.length - 1] - mark_rad[0];
        double sure_rad = marked_rad + SURE_SHARE * (span_rad() - marked_rad);
        double apart_rad = span_rad() / (all.size() - 1);
        return marksPerTurn == 0 || found.isEven() || sure_rad >= 2 * Math.PI - RunoutReader.CLOSING * apart_rad
                ? Optional.empty()
                : Optional.of(String.format(
                        Locale.ROOT,
                        "the marks show %.2f of a turn, and the turning was too uneven to tell how far it went beyond"
                                + " them; turn on a little",
                        marked_rad / (2 * Math.PI)));
    }

    /** Without marks a part of one turn passes for several small ones that drift. */
    private Optional<String> driftForATurn() {
        double drift_mm = found.fit().drift_mm(all.to_s()) - found.fit().drift_mm(all.from_s());
        double aTurn_mm = Math.abs(drift_mm) * 2 * Math.PI / span_rad();
        return marksPerTurn > 0
                        || aTurn_mm < PEAK_TO_VALLEY * found.fit().profile().rms_mm()
                ? Optional.empty()
                : Optional.of(
                        "the reading goes off by more in what would be a turn than it comes back: the part may have"
                                + " turned less than that; turn on, with marks");
    }

    private double fastest() {
        return IntStream.range(0, turning.knots())
                .mapToDouble(turning::knotSpeed_rad_per_s)
                .max()
                .orElseThrow();
    }

    private int slowestKnot() {
        int slowest = 0;
        for (int k = 1; k < turning.knots(); k++) {
            slowest = turning.knotSpeed_rad_per_s(k) < turning.knotSpeed_rad_per_s(slowest) ? k : slowest;
        }
        return slowest;
    }

    /** What is no reason to withhold the figures, but should be known. */
    Optional<String> warning() {
        int slowest = slowestKnot();
        double share = turning.knotSpeed_rad_per_s(slowest) / usualSpeed_rad_per_s;
        return share >= UNEVEN_SHARE
                ? Optional.empty()
                : Optional.of(String.format(
                        Locale.ROOT,
                        "the turning slowed down to %.0f %% of its usual speed at about %.2f s; if it stopped, turn again",
                        100 * share,
                        turning.knot_s(slowest)));
    }

    private Optional<String> standStill() {
        // A hand is uneven: only what even half its usual speed would have moved must move.
        double speed = usualSpeed_rad_per_s * (marksPerTurn < MANY_MARKS ? 1 : 0.5);
        Misfit misfit = Misfit.of(found.fit(), found.samples());
        return StandStill.from_s(found.samples(), found.fit().profile(), misfit.noise_mm(), speed)
                .asOptional()
                .map(at -> "from about " + seconds(at) + " the readings stand still for a while: the turning stopped; "
                        + remedy());
    }

    private Optional<String> misfit() {
        Misfit misfit = Misfit.of(found.fit(), found.samples());
        boolean worthless =
                misfit.structure_mm() > WORTHLESS_SHARE * found.fit().profile().rms_mm()
                        && misfit.structure_mm() > WORTHLESS_STEPS * all.step_mm();
        boolean slipped = misfit.slip_rad() > MOST_SLIP_RAD
                && misfit.slip_rad() * found.fit().profile().amplitude_mm(1) > WORTHLESS_STEPS * all.step_mm();
        if (worthless || slipped) {
            return Optional.of("the readings do not repeat from turn to turn, worst at about "
                    + seconds(slipped ? misfit.slip_s() : misfit.worst_s())
                    + ": the turning stopped or went back, a mark"
                    + " was missed, or the marks per turn are not as told; turn again");
        }
        return Optional.empty();
    }

    private Optional<String> runOfMisfits() {
        boolean[] kept = found.kept();
        for (int from = 0; from < kept.length; from++) {
            int to = from;
            while (to < kept.length && !kept[to]) {
                to++;
            }
            if (to - from >= LONG_RUN
                    && usualSpeed_rad_per_s * (all.time_s()[to - 1] - all.time_s()[from]) > LONG_RUN_RAD) {
                return Optional.of((to - from) + " readings in a row from " + seconds(all.time_s()[from])
                        + " fit nothing: the turning stopped or went back, or the contact was knocked; turn again");
            }
            from = to;
        }
        return Optional.empty();
    }

    private static Optional<String> repeatsWithinATurn(Profile profile) {
        double strongest = 0;
        int lobes = 1;
        for (int n : profile.upr()) {
            if (profile.amplitude_mm(n) > strongest) {
                strongest = profile.amplitude_mm(n);
                lobes = n;
            }
        }
        if (lobes == 1) {
            return Optional.empty();
        }
        for (int n : profile.upr()) {
            if (n % lobes != 0 && profile.amplitude_mm(n) > NO_FIRST * strongest) {
                return Optional.empty();
            }
        }
        return Optional.of(
                "the readings repeat " + lobes + " times in what the marks call a turn: marks were missed, or"
                        + " there are fewer marks per turn than told");
    }
}

package sweepbook.analysis.runout;

import java.util.Locale;
import java.util.Optional;
import java.util.stream.IntStream;
import java.util.stream.Stream;
import sweepbook.analysis.runout.angle.MarkDoubts;
import sweepbook.analysis.runout.angle.MarkWindow;
import sweepbook.analysis.runout.angle.TurnMarks;
import sweepbook.analysis.runout.angle.Turning;
import sweepbook.analysis.runout.circle.ReferenceCircle;
import sweepbook.analysis.runout.fit.Anchors;
import sweepbook.analysis.runout.fit.HarmonicChoice;
import sweepbook.analysis.runout.fit.Misfit;
import sweepbook.analysis.runout.fit.MotionSearch;
import sweepbook.analysis.runout.fit.Readings;
import sweepbook.analysis.runout.fit.Repeats;
import sweepbook.analysis.runout.fit.Samples;
import sweepbook.analysis.uncertainty.Estimate;
import sweepbook.analysis.uncertainty.Finding;

/** A part that turned while it was read, evenly or by hand; says so where it did not turn as it should. */
final class MovedTurn {
    /** Marks pressed by hand come early or late by more than a reading; from here on that is allowed for. */
    private static final double LOOSE = 1.6;

    /** A mark is off by no more than the root of 3 standard uncertainties, the width of its window; and a little. */
    private static final double BEYOND_WINDOW = 1.9;

    /** An even turning is the simpler story: it stands unless the readings speak against it by these log odds. */
    private static final double NEAR_ODDS = 3;

    /** Peak to valley of the form, as a share of the eccentricity, that one turn is not believed. */
    private static final double MOST_FORM = 0.3;
    /** Fewer marks say little about evenness. */
    private static final int MARKS_FOR_EVEN = 4;

    /** Log odds beforehand against a mark told early or late: few are, and a hand that jerks looks like one. */
    private static final double SELDOM_ODDS = 12;

    private static final double ANY_WANDER = Double.POSITIVE_INFINITY;
    private static final double SPINDLE_WANDER = 0.01;
    /** A mark that lies so much of the way to the next one off what the readings say is not where it should be. */
    private static final double MOST_MISS = 0.3;

    private final Samples all;
    private final Readings readings;
    private final RunoutSettings settings;
    private final double lateStdU_s;

    /** @param lateStdU_s how well it is known when marks passed against when readings were taken, all alike */
    MovedTurn(Readings readings, RunoutSettings settings, double lateStdU_s) {
        this.lateStdU_s = lateStdU_s;
        this.readings = readings;
        all = readings.all();
        this.settings = settings;
    }

    /** At even speed, without marks, or with one that tells where the angle starts. */
    Finding<Runout> even(double speed_rad_per_s, Anchors anchors, AngleZero zero) {
        double offset = speed_rad_per_s * (anchors.time_s()[0] - all.from_s());
        double end = speed_rad_per_s * (all.to_s() - all.from_s());
        Turning line = new Turning(
                new double[] {all.from_s(), all.to_s()},
                new double[] {-offset, end - offset},
                new double[] {speed_rad_per_s, speed_rad_per_s});
        MotionSearch found = search(line, anchors, false, ANY_WANDER);
        return figuresUnless(new TurnCheck(all, found, 0), found, zero, new OtherMarks(found.fit()));
    }

    /** With two marks or more. */
    Finding<Runout> marked(TurnMarks marks) {
        MarkDoubts doubts = new MarkDoubts(marks);
        Optional<String> halted = doubts.stop(all.to_s())
                .or(() -> marks.passEvenly() ? Optional.empty() : new WayBack(readings.kept(), marks).objection());
        if (halted.isPresent()) {
            return Finding.notDetermined(halted.orElseThrow());
        }
        MotionSearch asGiven = search(marks);
        OtherMarks others = new OtherMarks(asGiven.fit());
        Optional<String> wrong = wrongSpacing(marks, doubts, asGiven)
                .or(() -> outOfPlace(marks, doubts, asGiven, others))
                .or(() -> unfitting(marks, asGiven));
        if (wrong.isPresent()) {
            return Finding.notDetermined(wrong.orElseThrow());
        }
        MotionSearch found = believed(marks, asGiven);
        double sure = found.isByHand() ? TurnCheck.SURE_SHARE : 1;
        return marks.silence(found.fit().turning(), all.from_s(), all.to_s(), sure)
                .map(Finding::<Runout>notDetermined)
                .orElseGet(() -> figuresUnless(
                        new TurnCheck(all, found, settings.marksPerTurn()), found, AngleZero.FIRST_MARK, others));
    }

    private Optional<String> wrongSpacing(TurnMarks marks, MarkDoubts doubts, MotionSearch asGiven) {
        MarkCount count = new MarkCount(readings.kept(), marks, settings.marksPerTurn());
        return Stream.concat(doubts.spacing().stream(), count.others().stream())
                .filter(doubt -> odds(asGiven, search(doubt.instead()), doubt) < 0)
                .findFirst()
                .map(MarkDoubts.Doubt::reason);
    }

    /** Where such a doubt is not so strong as to say so, adds what it would make of the part to the others. */
    private Optional<String> outOfPlace(TurnMarks marks, MarkDoubts doubts, MotionSearch asGiven, OtherMarks others) {
        boolean loose = asGiven.anchors().stdU_rad()[0] > marks.stdU_rad(marks.turning())[0];
        // Marks that are all told so badly are no likelier than one of them.
        double beforehand = loose ? 0 : SELDOM_ODDS;
        for (MarkDoubts.Doubt doubt : doubts.outOfPlace()) {
            MotionSearch other = search(doubt.instead());
            double odds = odds(asGiven, other, doubt);
            if (odds < -beforehand) {
                return Optional.of(doubt.reason());
            }
            others.add(other.fit(), odds);
        }
        return Optional.empty();
    }

    private static Optional<String> unfitting(TurnMarks marks, MotionSearch asGiven) {
        double[] miss = asGiven.fit().anchorMisses_rad();
        return IntStream.range(0, miss.length)
                .filter(m -> Math.abs(miss[m]) > MOST_MISS * marks.step_rad())
                .mapToObj(m -> String.format(
                        Locale.ROOT,
                        "the mark at %.2f s does not fit the readings: one was missed or counted twice, or the turning"
                                + " stopped or went back; turn again",
                        marks.time_s()[m]))
                .findFirst();
    }

    /** The motion that the figures are taken from: as it was found, or even where the marks say so. */
    private MotionSearch believed(TurnMarks marks, MotionSearch asGiven) {
        if (!marks.passEvenly()) {
            return asGiven;
        }
        Optional<MotionSearch> even = evenly(marks, asGiven);
        if (even.isPresent()) {
            return even.orElseThrow();
        }
        if (marks.count() >= MARKS_FOR_EVEN && isObjectedTo(asGiven)) {
            // Turns that differ in earnest look like a wandering speed; the marks say that it did not wander.
            Turning turning = marks.turning();
            Anchors anchors = new Anchors(marks.time_s(), marks.angles_rad(), marks.stdU_rad(turning));
            MotionSearch stiff = search(turning, anchors, false, SPINDLE_WANDER);
            return isObjectedTo(stiff) ? asGiven : stiff;
        }
        return asGiven;
    }

    private boolean isObjectedTo(MotionSearch found) {
        return new TurnCheck(all, found, settings.marksPerTurn()).objection().isPresent();
    }

    /** Log odds by which the readings speak for the marks as given against a doubt of them. */
    private static double odds(MotionSearch asGiven, MotionSearch other, MarkDoubts.Doubt doubt) {
        return asGiven.fit().evidence() - other.fit().evidence() - doubt.odds();
    }

    /** One speed throughout, where the readings bear it: then every mark tells where each other one passed. */
    private Optional<MotionSearch> evenly(TurnMarks marks, MotionSearch otherwise) {
        MotionSearch even = otherwise.isEven()
                ? otherwise
                : search(marks.turning(), otherwise.anchors(), false, MotionSearch.EVEN_WANDER);
        if (even.fit().evidence() < otherwise.fit().evidence() - NEAR_ODDS) {
            return Optional.empty();
        }
        double middle_s = (all.from_s() + all.to_s()) / 2;
        MotionSearch read = held(even, even.fit().turning(), middle_s, Estimate.exact(0));
        return MarkWindow.shift_rad(
                        marks, read.fit().turning(), middle_s, read.fit().speedStdU_rad_per_s())
                .asOptional()
                .map(shift -> held(even, read.fit().turning(), middle_s, shift));
    }

    private static MotionSearch held(MotionSearch even, Turning turning, double middle_s, Estimate shift_rad) {
        return even.evenly(
                turning,
                new Anchors(
                        new double[] {middle_s},
                        new double[] {turning.angle_rad(middle_s) + shift_rad.value()},
                        new double[] {Math.max(Anchors.SURE_RAD, shift_rad.stdU())}));
    }

    private Finding<Runout> figuresUnless(TurnCheck check, MotionSearch found, AngleZero zero, OtherMarks others) {
        return check.objection()
                .map(Finding::<Runout>notDetermined)
                .orElseGet(() -> figures(found, zero, check.warning(), others));
    }

    private MotionSearch search(TurnMarks marks) {
        Turning turning = marks.turning();
        Anchors anchors = new Anchors(marks.time_s(), marks.angles_rad(), marks.stdU_rad(turning));
        boolean uneven = marks.count() < MARKS_FOR_EVEN || !marks.passEvenly();
        MotionSearch found = search(turning, anchors, uneven, ANY_WANDER);
        double looseness = looseness(found);
        return looseness > LOOSE ? search(turning, anchors.looser(looseness), uneven, ANY_WANDER) : found;
    }

    /** How much farther off than half a reading marks passed; 1 where that holds them all. */
    private static double looseness(MotionSearch found) {
        double[] miss = found.fit().anchorMisses_rad();
        double sum = 0;
        double farthest = 0;
        for (int m = 0; m < miss.length; m++) {
            double share = miss[m] / found.anchors().stdU_rad()[m];
            sum += share * share;
            farthest = Math.max(farthest, Math.abs(share));
        }
        return miss.length < 4 || farthest < BEYOND_WINDOW ? 1 : Math.sqrt(sum / (miss.length - 2));
    }

    /** A hand grips and lets go between marks in ways that no wander describes; few marks leave it much room. */
    private double byHand(MotionSearch found) {
        double few = (double) TurnCheck.MARKS_BY_HAND / settings.marksPerTurn();
        return found.isByHand() ? Math.max(1, few * few) : 1;
    }

    private MotionSearch search(Turning start, Anchors anchors, boolean uneven, double mostWander) {
        return new MotionSearch(readings, start, anchors, uneven, mostWander, settings.order());
    }

    /** The variance ratio of a mean in which one value in so many readings counts once or twice. */
    private static double countedTwice(double readingsAValue) {
        return Math.max(1, 3 - 2 / readingsAValue);
    }

    /**
     * A spindle may carry every mark past between two readings at the same place, so that all are told late alike; a fit
     * that takes each on its own does not know that.
     */
    private double alikeStdU_s(MotionSearch found) {
        double reading_s = (all.to_s() - all.from_s()) / (all.size() - 1);
        return found.isByHand() || found.anchors().size() == 1 ? 0 : reading_s / 2 / Math.sqrt(3);
    }

    private Finding<Runout> figures(MotionSearch found, AngleZero zero, Optional<String> warning, OtherMarks others) {
        double[] angles = found.fit().turning().angles_rad(all.time_s());
        double span_rad = angles[angles.length - 1] - angles[0];
        double reading_s = (all.to_s() - all.from_s()) / (all.size() - 1);
        double aValue = Repeats.readingsAValue(all, angles, found.fit());
        Figures figures = new Figures(
                found.fit(),
                found.samples(),
                Misfit.of(found.fit(), found.samples()).inflation() * byHand(found) * countedTwice(aValue),
                settings,
                found.order());
        figures.allowFor(found.covarianceByWander());
        figures.allowFor(others.covariance(found.fit()));
        if (aValue > 1) {
            figures.warn(String.format(
                    Locale.ROOT,
                    "the display showed a new value only every %.1f readings or so; angles may be late by one",
                    aValue));
        }
        if (zero == AngleZero.FIRST_MARK) {
            double old_s = aValue > 1 ? reading_s : 0;
            double late_s = Math.hypot(Math.hypot(lateStdU_s, alikeStdU_s(found)), old_s);
            figures.allowLate(span_rad / (all.to_s() - all.from_s()) * late_s);
        }
        warning.ifPresent(figures::warn);
        boolean few = span_rad < TurnCheck.FEW_TURNS_RAD && settings.marksPerTurn() < MARKS_FOR_EVEN;
        if (few) {
            figures.warn("less than two turns and few marks: a stop or a turning back would not show; turn three times"
                    + " or more");
        }
        if (found.isByHand() && settings.marksPerTurn() < TurnCheck.MARKS_BY_HAND) {
            figures.warn(
                    "by hand, " + settings.marksPerTurn() + " marks a turn leave the angle in between little known;"
                            + " twelve make the figures several times as good");
        }
        if (zero == AngleZero.FIRST_READING) {
            figures.warn(String.format(
                    Locale.ROOT,
                    "without marks the readings alone tell the turns: one was taken to last %.2f s; see that it did",
                    2 * Math.PI / found.fit().turning().speed_rad_per_s((all.from_s() + all.to_s()) / 2)));
        }
        if (HarmonicChoice.seesTooFew(found.order())) {
            figures.allowUnseen(HarmonicChoice.unseen_mm2(found.fit(), found.order()));
        }
        Finding<Runout> finding = figures.runout(all, found.kept(), angles, span_rad / (angles.length - 1), zero);
        return few ? finding.flatMap(MovedTurn::unlessWild) : finding;
    }

    /** What was read once and looks like much form may as well be a turning that stopped or went back. */
    private static Finding<Runout> unlessWild(Runout runout) {
        double form_mm =
                runout.outOfRoundness().get(ReferenceCircle.LEAST_SQUARES).value();
        return form_mm < MOST_FORM * runout.eccentricity().value()
                ? Finding.found(runout)
                : Finding.notDetermined("in less than two turns with few marks a part of much form looks like a turning"
                        + " that stopped or went back; turn three times or more, or with four marks a turn or more");
    }
}

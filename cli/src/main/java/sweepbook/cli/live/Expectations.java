package sweepbook.cli.live;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import sweepbook.acquisition.trace.LengthUnit;
import sweepbook.analysis.offset.EntryChange;
import sweepbook.analysis.offset.EntryUnit;
import sweepbook.analysis.sweep.Pressing;
import sweepbook.analysis.sweep.SweepFindings;
import sweepbook.analysis.sweep.SweepNow;
import sweepbook.cli.book.Book;
import sweepbook.cli.book.Offsets;
import sweepbook.cli.plan.Plan;
import sweepbook.cli.plan.PlannedOffset;
import sweepbook.cli.plan.PositionCheck.Expectation;
import sweepbook.cli.plan.TouchSeries.Habit;

/** What trace and table let one expect of a position before it is typed. */
final class Expectations {
    /** A difference of four standard deviations is chance once in 16,000 touches. */
    private static final double DOUBT_BEYOND_SIGMAS = 4;

    private Expectations() {}

    /** At the end of a touch. */
    static List<Expectation> atTheEnd(
            TouchCapture capture, Person.Question question, SweepFindings findings, Book book) {
        List<Expectation> expectations = new ArrayList<>();
        boolean stands = capture.now().phase() == SweepNow.Phase.STABLE;
        boolean standsOrNeedNot = stands || capture.station().offset().habit() == Habit.SWEEP_ONLY;
        if (question == Person.Question.SWEEPING && !standsOrNeedNot) {
            expectations.add(position_mm -> Optional.of("the needle has not come to rest yet"));
        }
        if (capture.lacksPositionOnCrest()) {
            expectations.add(position_mm ->
                    Optional.of("no position on the crest was typed, so the clicks prove nothing about this one"));
        }
        byTheJog(capture, findings, book.plan()).ifPresent(expectations::add);
        byTheTable(capture, findings, book).ifPresent(expectations::add);
        return expectations;
    }

    /** The jog moved the machine from the typed position on the crest by what the reading moved: a p times it. */
    private static Optional<Expectation> byTheJog(TouchCapture capture, SweepFindings findings, Plan plan) {
        PlannedOffset offset = capture.station().offset();
        Optional<Pressing> pressing = offset.pressing().or(findings::pressing);
        if (capture.positionOnCrest_mm().isEmpty()
                || pressing.isEmpty()
                || !findings.stableZero().isFound()) {
            return Optional.empty();
        }
        double travel_mm = offset.direction().sign()
                * pressing.get().sign()
                * findings.clicks().travel_mm();
        double expected_mm = capture.positionOnCrest_mm().getAsDouble() + travel_mm;
        double allowed_mm = allowed_mm(findings, plan);
        return Optional.of(position_mm -> Math.abs(position_mm - expected_mm) <= allowed_mm
                ? Optional.empty()
                : Optional.of("the trace shows " + findings.clicks().count() + " clicks, "
                        + text(travel_mm, plan) + " since the position on the crest ("
                        + text(capture.positionOnCrest_mm().getAsDouble(), plan) + "; undo if that was wrong), so "
                        + offset.axis()
                        + " should show about " + text(expected_mm, plan)));
    }

    private static double allowed_mm(SweepFindings findings, Plan plan) {
        double step_mm = plan.machine().resolution().mm();
        double q_mm = plan.indicator().resolution().mm();
        double zero_mm = findings.stableZero()
                .asOptional()
                .map(zero -> zero.level().stdU())
                .orElse(q_mm);
        double variance = zero_mm * zero_mm + q_mm * q_mm / 6 + step_mm * step_mm / 6;
        double backlash_mm = nanAsZero(plan.conditions().machine().backlash_mm());
        double hysteresis_mm = nanAsZero(plan.conditions().indicator().hysteresis_mm());
        return DOUBT_BEYOND_SIGMAS * Math.sqrt(variance) + backlash_mm + hysteresis_mm;
    }

    private static double nanAsZero(double limit) {
        return Double.isNaN(limit) ? 0 : limit;
    }

    /** The last touch of an offset gives a new entry; it should not be far from the one in the table. */
    private static Optional<Expectation> byTheTable(TouchCapture capture, SweepFindings findings, Book book) {
        PlannedOffset offset = capture.station().offset();
        if (capture.station().touch() != offset.touches().size() - 1) {
            return Optional.empty();
        }
        return Optional.of(position_mm -> new Offsets(book)
                .withLastTouchAt(offset, findings, position_mm, capture.travel_mm())
                .flatMap(entry -> doubt(offset, entry)));
    }

    private static Optional<String> doubt(PlannedOffset offset, EntryChange entry) {
        EntryUnit unit = offset.entry().convention().unit();
        double moved = unit.toInside(entry.after().subtract(entry.before()).doubleValue());
        if (Math.abs(moved) <= offset.plausible().inside()) {
            return Optional.empty();
        }
        return Optional.of("the entry '" + offset.entry().label() + "' would go from " + entry.before() + " to "
                + entry.after() + " " + unit.symbol() + ", by more than the plausible " + offset.plausible());
    }

    private static String text(double length_mm, Plan plan) {
        LengthUnit unit = plan.machine().resolution().unit();
        return String.format(
                Locale.ROOT,
                "%." + plan.machine().resolution().decimals() + "f %s",
                unit.fromMm(length_mm),
                unit.symbol());
    }
}

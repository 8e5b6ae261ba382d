package sweepbook.cli.book;

import java.util.DoubleSummaryStatistics;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.SortedMap;
import java.util.TreeMap;
import java.util.stream.Collectors;
import java.util.stream.IntStream;
import sweepbook.analysis.head.GeometryTable;
import sweepbook.analysis.head.Place;
import sweepbook.analysis.head.TipErrors;
import sweepbook.analysis.head.TipErrors.TipError;
import sweepbook.analysis.uncertainty.Estimate;
import sweepbook.cli.plan.Plan;
import sweepbook.cli.plan.PlannedHead;
import sweepbook.cli.plan.PlannedOffset;

/**
 * What the controller's table, as it stands, does at the tool if the measured offsets are true. The part is taken as
 * touched off with all rotary axes at zero, so that the tip misses nothing there.
 *
 * @param head the machine
 * @param counted names of the offsets that come in, in the order of the plan
 * @param errors the miss over a grid of rotary positions
 */
public record ToolEffect(PlannedHead head, List<String> counted, List<TipError> errors) {
    private static final int POSITIONS = 9;

    public ToolEffect {
        counted = List.copyOf(counted);
        errors = List.copyOf(errors);
    }

    /** Empty where the plan describes no head, or nothing that was measured belongs to it. */
    public static Optional<ToolEffect> of(Plan plan, List<OffsetResult> results) {
        return plan.head().flatMap(head -> of(head, results));
    }

    private static Optional<ToolEffect> of(PlannedHead head, List<OffsetResult> results) {
        Map<String, Estimate> before = new HashMap<>();
        head.stated().forEach((name, value) -> before.put(name, Estimate.exact(value)));
        Map<String, Estimate> after = new HashMap<>(before);
        for (OffsetResult result : results) {
            PlannedOffset planned = result.planned();
            Optional<Estimate> offset =
                    result.result().asOptional().map(outcome -> outcome.offset().combined());
            double old = planned.entry()
                    .convention()
                    .standsFor(
                            planned.entry().before(),
                            offset.map(Estimate::value).orElse(1.0));
            before.put(planned.name(), Estimate.exact(old));
            after.put(
                    planned.name(),
                    offset.map(found -> planned.entry().convention().truth(old, found))
                            .orElse(Estimate.exact(old)));
        }
        List<String> counted = results.stream()
                .filter(result -> result.result().isFound())
                .map(result -> result.planned().name())
                .filter(head.entries()::contains)
                .toList();
        if (counted.isEmpty()) {
            return Optional.empty();
        }
        Map<String, Double> zero = new TreeMap<>();
        Map<String, double[]> positions = new TreeMap<>();
        for (PlannedHead.Swing swing : head.swings()) {
            zero.put(swing.axis(), 0.0);
            positions.put(swing.axis(), positions_deg(swing));
        }
        TipErrors errors = new TipErrors(
                head.kinematics(),
                new GeometryTable(before),
                new GeometryTable(after),
                Place.ORIGIN,
                Optional.of(zero));
        return Optional.of(new ToolEffect(head, counted, errors.at(TipErrors.grid(positions))));
    }

    private static double[] positions_deg(PlannedHead.Swing swing) {
        double step_deg = (swing.to_deg() - swing.from_deg()) / (POSITIONS - 1);
        return IntStream.range(0, POSITIONS)
                .mapToDouble(i -> swing.from_deg() + i * step_deg)
                .toArray();
    }

    /** The misses by position of one axis, in degrees. */
    public SortedMap<Double, List<TipError>> over(PlannedHead.Swing swing) {
        return errors.stream()
                .collect(Collectors.groupingBy(
                        error -> error.pose().get(swing.axis()), TreeMap::new, Collectors.toList()));
    }

    /** The axis whose position changes the worst miss most; of equal ones the last of the chain. */
    public PlannedHead.Swing mattersMost() {
        return head.swings().stream()
                .reduce((one, other) -> spread_mm(one) > spread_mm(other) + 1e-9 ? one : other)
                .orElseThrow();
    }

    private double spread_mm(PlannedHead.Swing swing) {
        DoubleSummaryStatistics worst_mm = over(swing).values().stream()
                .mapToDouble(group -> TipErrors.worst(group).size().value())
                .summaryStatistics();
        return worst_mm.getMax() - worst_mm.getMin();
    }
}

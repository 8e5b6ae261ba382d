package sweepbook.analysis.head;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;
import sweepbook.analysis.uncertainty.Budget;
import sweepbook.analysis.uncertainty.BudgetLine;
import sweepbook.analysis.uncertainty.Distribution;
import sweepbook.analysis.uncertainty.Estimate;

/**
 * What the old table of a machine does at the tool, where the new one is true: by how much the tip misses, over a grid
 * of rotary positions.
 *
 * @param machine its description
 * @param before the table that the controller believes
 * @param after the table as measured, with the uncertainty of each entry
 * @param wanted the place on the part that the tip should touch
 * @param zeroedAt rotary positions at which the part was touched off with the old table, so that the tip misses
 *     nothing there; empty where the part's zero comes from elsewhere
 */
public record TipErrors(
        Kinematics machine,
        GeometryTable before,
        GeometryTable after,
        Place wanted,
        Optional<Map<String, Double>> zeroedAt) {
    /**
     * The miss at one set of rotary positions.
     *
     * @param miss true place less wanted place, on the part
     * @param size its length in millimetres, with a line for each entry that is not exactly known
     * @param lean_deg by how much the tool's direction is off
     */
    public record TipError(Map<String, Double> pose, Place miss, Budget size, double lean_deg) {
        /** Whether the miss is more than the uncertainty of the new table explains. */
        public boolean isSignificant() {
            Estimate estimate = size.combined();
            return estimate.value() > estimate.u95();
        }
    }

    /** A part that is not touched off, and a wanted place at its zero. */
    public TipErrors(Kinematics machine, GeometryTable before, GeometryTable after) {
        this(machine, before, after, Place.ORIGIN, Optional.empty());
    }

    /** The miss at each of the rotary positions. */
    public List<TipError> at(List<Map<String, Double>> poses) {
        return poses.stream().map(this::at).toList();
    }

    private TipError at(Map<String, Double> pose) {
        Place miss = miss(after, pose);
        List<BudgetLine> lines = new ArrayList<>();
        new TreeMap<>(after.entries()).forEach((name, entry) -> {
            if (entry.stdU() > 0) {
                lines.add(new BudgetLine(
                        name,
                        Distribution.NORMAL,
                        entry.stdU(),
                        along(miss, change(pose, name, entry.stdU())) / entry.stdU(),
                        entry.degreesOfFreedom(),
                        "measure " + name + " better"));
            }
        });
        return new TipError(pose, miss, new Budget(miss.size_mm(), lines), machine.lean_deg(before, after, pose));
    }

    /** How the miss changes when one entry grows by so much, by a central difference. */
    private Place change(Map<String, Double> pose, String name, double by) {
        return miss(after.moved(name, by / 2), pose).minus(miss(after.moved(name, -by / 2), pose));
    }

    /** The part of a change along the miss; all of it where there is no miss to have a direction. */
    private static double along(Place miss, Place change) {
        double size_mm = miss.size_mm();
        if (size_mm == 0) {
            return change.size_mm();
        }
        return (miss.x_mm() * change.x_mm() + miss.y_mm() * change.y_mm() + miss.z_mm() * change.z_mm()) / size_mm;
    }

    private Place miss(GeometryTable built, Map<String, Double> pose) {
        Place miss = machine.miss(before, built, pose, wanted);
        return zeroedAt.map(zero -> miss.minus(machine.miss(before, built, zero, wanted)))
                .orElse(miss);
    }

    /** The largest miss of a grid. */
    public static TipError worst(List<TipError> errors) {
        return errors.stream()
                .max(Comparator.comparingDouble(error -> error.size().value()))
                .orElseThrow(() -> new IllegalArgumentException("no rotary positions were given"));
    }

    /** The root mean square of the misses of a grid, in millimetres. */
    public static double typical_mm(List<TipError> errors) {
        return Math.sqrt(errors.stream()
                .mapToDouble(error -> error.size().value() * error.size().value())
                .average()
                .orElseThrow(() -> new IllegalArgumentException("no rotary positions were given")));
    }

    /** Every combination of positions of some axes. */
    public static List<Map<String, Double>> grid(Map<String, double[]> positions) {
        List<Map<String, Double>> poses = List.of(Map.of());
        for (Map.Entry<String, double[]> axis : new TreeMap<>(positions).entrySet()) {
            List<Map<String, Double>> more = new ArrayList<>();
            for (Map<String, Double> pose : poses) {
                for (double position : axis.getValue()) {
                    Map<String, Double> further = new TreeMap<>(pose);
                    further.put(axis.getKey(), position);
                    more.add(further);
                }
            }
            poses = more;
        }
        return poses;
    }
}

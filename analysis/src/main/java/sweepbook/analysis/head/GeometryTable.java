package sweepbook.analysis.head;

import java.util.HashMap;
import java.util.Map;
import sweepbook.analysis.uncertainty.Estimate;

/** The controller's lengths in millimetres and reference angles in degrees, by name. */
public record GeometryTable(Map<String, Estimate> entries) {
    public GeometryTable {
        entries = Map.copyOf(entries);
    }

    /** A table taken as it stands. */
    public static GeometryTable exact(Map<String, Double> values) {
        Map<String, Estimate> entries = new HashMap<>();
        values.forEach((name, value) -> entries.put(name, Estimate.exact(value)));
        return new GeometryTable(entries);
    }

    /** The same table with one entry measured anew. */
    public GeometryTable with(String name, Estimate entry) {
        Map<String, Estimate> changed = new HashMap<>(entries);
        changed.put(name, entry);
        return new GeometryTable(changed);
    }

    /** The value of an entry that the chain needs. */
    double value(String name) {
        Estimate entry = entries.get(name);
        if (entry == null) {
            throw new IllegalArgumentException("the geometry table has no " + name + ", only "
                    + entries.keySet().stream().sorted().toList());
        }
        return entry.value();
    }

    /** The same table with one value moved. */
    GeometryTable moved(String name, double by) {
        Estimate entry = entries.get(name);
        return with(name, new Estimate(entry.value() + by, entry.stdU(), entry.degreesOfFreedom()));
    }
}

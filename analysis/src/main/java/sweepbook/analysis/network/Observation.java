package sweepbook.analysis.network;

import sweepbook.analysis.uncertainty.Estimate;

/**
 * One equation between two points on an axis: the place of one less the place of the other.
 *
 * @param name how a person would find it again: "touch 3 of the drill pin"
 * @param from where the difference starts
 * @param to where it ends; place(to) - place(from)
 * @param difference in millimetres; its standard uncertainty, above 0, is its weight
 */
public record Observation(String name, String from, String to, Estimate difference) {
    public Observation {
        if (from.equals(to)) {
            throw new IllegalArgumentException(name + " goes from " + from + " to itself");
        }
        if (!(difference.stdU() > 0)) {
            throw new IllegalArgumentException(
                    name + " needs a standard uncertainty above 0 mm, or it could not be weighed against the others");
        }
    }
}

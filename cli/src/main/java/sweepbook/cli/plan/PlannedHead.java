package sweepbook.cli.plan;

import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import sweepbook.analysis.head.Joint;
import sweepbook.analysis.head.Kinematics;

/**
 * The machine as chains of joints, so that one can see what a changed entry does at the tool.
 *
 * @param kinematics the chains
 * @param stated entries of the controller's table that no offset of the plan measures, in millimetres or degrees; the
 *     others go by the name of their offset
 * @param swings the rotary axes
 */
public record PlannedHead(Kinematics kinematics, Map<String, Double> stated, List<Swing> swings) {
    public PlannedHead {
        stated = Map.copyOf(stated);
        swings = List.copyOf(swings);
    }

    /** The names of all lengths and reference angles in the chains. */
    public Set<String> entries() {
        return Stream.concat(kinematics.toTool().stream(), kinematics.toPart().stream())
                .flatMap(joint -> entry(joint).stream())
                .collect(Collectors.toSet());
    }

    private static Optional<String> entry(Joint joint) {
        if (joint instanceof Joint.Length length) {
            return Optional.of(length.entry());
        }
        return joint instanceof Joint.Rotary rotary ? Optional.of(rotary.reference()) : Optional.empty();
    }

    /** How far a rotary axis turns at work. */
    public record Swing(String axis, double from_deg, double to_deg) {}
}

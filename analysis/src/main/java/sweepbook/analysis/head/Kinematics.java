package sweepbook.analysis.head;

import java.util.List;
import java.util.Map;
import java.util.stream.Stream;
import org.hipparchus.geometry.euclidean.threed.Rotation;
import org.hipparchus.geometry.euclidean.threed.RotationConvention;
import org.hipparchus.geometry.euclidean.threed.Vector3D;

/**
 * A machine as two chains of joints, one to the tool and one to the part; between them the controller moves its linear
 * axes so that the tip stands where the program wants it on the part. Another head or a tilting table is another
 * description, not more code.
 *
 * @param toTool from the linear axes to the tool's tip
 * @param toPart from the machine's frame to the part; empty where the part lies still
 */
public record Kinematics(List<Joint> toTool, List<Joint> toPart) {
    /**
     * A head that swivels (C, vertical) and tilts (A, along X at C = 0), with a spindle that points down at A = 0.
     * Lengths lie as they do at C = 0 and A = 0.
     */
    public static final Kinematics SWIVEL_AND_TILT_HEAD = new Kinematics(
            List.of(
                    new Joint.Rotary("C", "swivel-zero", 0, 0, 1),
                    new Joint.Length("swivel-axis-to-tilt-axis", 0, 1, 0),
                    new Joint.Length("swivel-axis-to-spindle", 1, 0, 0),
                    new Joint.Rotary("A", "tilt-zero", 1, 0, 0),
                    new Joint.Length("tilt-axis-to-spindle", 0, 1, 0),
                    new Joint.Length("tilt-axis-to-gauge-face", 0, 0, -1),
                    new Joint.Length("tool-length", 0, 0, -1)),
            List.of());

    public Kinematics {
        toTool = List.copyOf(toTool);
        toPart = List.copyOf(toPart);
    }

    /** The same machine with a second unit: further steps from the tip of the first. */
    public Kinematics withTool(List<Joint> further) {
        return new Kinematics(Stream.concat(toTool.stream(), further.stream()).toList(), toPart);
    }

    /** Where the end of a chain stands, and how it is turned. */
    private record Frame(Vector3D origin, Rotation turned) {
        static Frame of(List<Joint> chain, GeometryTable table, Map<String, Double> pose) {
            Vector3D origin = Vector3D.ZERO;
            Rotation turned = Rotation.IDENTITY;
            for (Joint joint : chain) {
                Vector3D direction = new Vector3D(joint.x(), joint.y(), joint.z());
                if (joint instanceof Joint.Rotary rotary) {
                    double angle_deg = shown(pose, rotary.axis()) - table.value(rotary.reference());
                    turned = turned.compose(
                            new Rotation(direction, Math.toRadians(angle_deg), RotationConvention.VECTOR_OPERATOR),
                            RotationConvention.VECTOR_OPERATOR);
                } else {
                    double length_mm = joint instanceof Joint.Length length
                            ? table.value(length.entry())
                            : shown(pose, ((Joint.Linear) joint).axis());
                    origin = origin.add(length_mm, turned.applyTo(direction));
                }
            }
            return new Frame(origin, turned);
        }

        private static double shown(Map<String, Double> pose, String axis) {
            Double position = pose.get(axis);
            if (position == null) {
                throw new IllegalArgumentException("the pose does not say where axis " + axis + " stands: "
                        + pose.keySet().stream().sorted().toList());
            }
            return position;
        }

        Vector3D place(Vector3D held) {
            return origin.add(turned.applyTo(held));
        }

        Vector3D heldAt(Vector3D place) {
            return turned.applyInverseTo(place.subtract(origin));
        }
    }

    /** The tip against the point that the linear axes carry, with these rotary positions. */
    public Place tip(GeometryTable table, Map<String, Double> pose) {
        return place(Frame.of(toTool, table, pose).origin());
    }

    /**
     * How far the tip misses the place that the program wants, seen from the part, where the controller believes one
     * table and the machine is built as the other says.
     *
     * @param wanted on the part
     */
    Place miss(GeometryTable believed, GeometryTable built, Map<String, Double> pose, Place wanted) {
        Vector3D on = new Vector3D(wanted.x_mm(), wanted.y_mm(), wanted.z_mm());
        Vector3D carried = Frame.of(toPart, believed, pose)
                .place(on)
                .subtract(Frame.of(toTool, believed, pose).origin());
        Vector3D reached = Frame.of(toPart, built, pose)
                .heldAt(carried.add(Frame.of(toTool, built, pose).origin()));
        return place(reached.subtract(on));
    }

    /** By how much the tool's direction against the part is off, in degrees. */
    double lean_deg(GeometryTable believed, GeometryTable built, Map<String, Double> pose) {
        return Math.toDegrees(Vector3D.angle(toolDirection(believed, pose), toolDirection(built, pose)));
    }

    private Vector3D toolDirection(GeometryTable table, Map<String, Double> pose) {
        Vector3D inMachine = Frame.of(toTool, table, pose).turned().applyTo(Vector3D.MINUS_K);
        return Frame.of(toPart, table, pose).turned().applyInverseTo(inMachine);
    }

    private static Place place(Vector3D v) {
        return new Place(v.getX(), v.getY(), v.getZ());
    }
}

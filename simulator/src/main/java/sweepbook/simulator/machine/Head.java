package sweepbook.simulator.machine;

/**
 * A head that swivels (C) about a vertical axis and tilts (A) about a horizontal one that the swivel carries.
 *
 * <p>Places held by the head are counted from a point of the tilt axis, as they lie at A = 0, C = 0. With the linear
 * axes at zero the swivel axis goes through the frame's origin.
 *
 * @param swivelToTilt from the swivel axis' reference point to the tilt axis, at C = 0, in millimetres
 */
public record Head(Vec3 swivelToTilt) implements Carrier {
    @Override
    public Vec3 place(Vec3 held, Pose pose) {
        Vec3 tilted = held.aboutX(pose.a_deg());
        return pose.linear().plus(swivelToTilt.plus(tilted).aboutZ(pose.c_deg()));
    }

    @Override
    public Vec3 direction(Vec3 held, Pose pose) {
        return held.aboutX(pose.a_deg()).aboutZ(pose.c_deg());
    }

    /** Where a held place lies from the swivel axis at A = 0, C = 0: the truth that a reversal looks for. */
    public Vec3 fromSwivelAxis(Vec3 held) {
        return swivelToTilt.plus(held);
    }
}

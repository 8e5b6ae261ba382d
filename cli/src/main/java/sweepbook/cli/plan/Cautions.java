package sweepbook.cli.plan;

import java.util.List;

/**
 * What can hurt a person or a machine at this work, said before the move it belongs to. These lines are common practice;
 * they do not stand in for the machine maker's manual, the site's rules or local codes.
 */
public final class Cautions {
    /** Before anything else. */
    public static final String DEFERENCE =
            "The machine maker's manual, the site's lock-out rules and local codes come before anything said here.";

    /** Before the head is brought to the contact or a rotary axis is turned. */
    public static final List<String> BEFORE_A_MOVE = List.of(
            "Retract along the path that is known to be clear before any swivel or tilt.",
            "Keep hands off the work while axes move: a live machine under jog can crush and cut.");

    private static final String NO_POWER =
            "Let no blade or cutter turn under power; lock out power for hand work on the tool.";

    /** While the feature is near the contact. */
    public static final List<String> NEAR_CONTACT = List.of("Jog at the slowest step near contact.", NO_POWER);

    /** Before a part is turned under the contact. */
    public static final List<String> BEFORE_TURNING = List.of(NO_POWER, DEFERENCE);

    /** Before the numbers go into the controller's table. */
    public static final List<String> BEFORE_TYPING_IN = List.of(
            "Changing a controller's geometry changes where the tool goes: prove the new values with a slow dry run"
                    + " clear of the part.",
            "Fit guards again before production.");

    private Cautions() {}
}

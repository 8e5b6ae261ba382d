package sweepbook.acquisition.source;

import java.util.Optional;
import sweepbook.acquisition.source.Event.JumpAlone;
import sweepbook.acquisition.trace.Reading;

/**
 * Finds readings that stand alone: far from the one before and from the one behind, which are near each other. A contact
 * that is knocked has more than one reading to show for it; a reading alone is more likely a bit that flipped on the way.
 * Used by one thread.
 */
final class LoneJump {
    /** Noise of several steps of the display is no jump. */
    private static final double STEPS = 20;

    /** Neither is anything that motion of the last readings would explain. */
    private static final double TIMES_USUAL = 10;

    /** The usual motion is taken over about so many readings. */
    private static final double MEMORY = 32;

    private Reading before;
    private Reading suspect;
    private double usual_mm;

    /** Takes the next reading, and tells of the one before it if that stands alone. */
    Optional<JumpAlone> take(Reading next, double resolution_mm) {
        Optional<JumpAlone> jump = Optional.empty();
        if (before != null) {
            double far_mm = Math.max(STEPS * resolution_mm, TIMES_USUAL * usual_mm);
            double there_mm = suspect.reading_mm() - before.reading_mm();
            double back_mm = suspect.reading_mm() - next.reading_mm();
            boolean sameSide = there_mm * back_mm > 0;
            double nearer_mm = Math.min(Math.abs(there_mm), Math.abs(back_mm));
            double apart_mm = Math.abs(next.reading_mm() - before.reading_mm());
            if (sameSide && nearer_mm > far_mm && apart_mm < nearer_mm / 2) {
                jump = Optional.of(
                        new JumpAlone(suspect.time_s(), suspect.reading_mm(), before.reading_mm(), next.reading_mm()));
                // Its neighbours follow each other as if it had not been.
                suspect = before;
            }
            double step_mm = Math.abs(next.reading_mm() - suspect.reading_mm());
            usual_mm += (step_mm - usual_mm) / MEMORY;
        }
        before = suspect == null ? next : suspect;
        suspect = next;
        return jump;
    }
}

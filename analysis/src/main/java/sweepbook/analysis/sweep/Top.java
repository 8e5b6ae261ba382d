package sweepbook.analysis.sweep;

/**
 * A top of the line of a trace that may be a crest.
 *
 * @param index of the reading
 * @param level_mm of the line there
 * @param leftFall_mm how far the line falls before it
 * @param rightFall_mm how far it falls after it
 * @param seconds between its half falls
 */
record Top(int index, double level_mm, double leftFall_mm, double rightFall_mm, double seconds) {
    double fall_mm() {
        return Math.min(leftFall_mm, rightFall_mm);
    }

    /** Between passes the hand turns before the line is down to where it was before the first of them. */
    Top falling(double left_mm, double right_mm) {
        return new Top(index, level_mm, Math.min(left_mm, leftFall_mm), Math.min(right_mm, rightFall_mm), seconds);
    }
}

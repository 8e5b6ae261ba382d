package sweepbook.analysis.sweep;

import java.util.Optional;

/**
 * What is known of a touch besides its readings.
 *
 * @param pressing what pressing does to the reading; empty where it is to be told from the crests
 * @param words in which reasons speak of lengths
 * @param jogStep_mm one click of the jog; NaN where it is to be told from the levels
 * @param contour what is touched
 * @param standsFrom_s since when the last reading was seen to stand while it was captured; NaN where it was not
 */
record Told(Optional<Pressing> pressing, LengthWords words, double jogStep_mm, Contour contour, double standsFrom_s) {}

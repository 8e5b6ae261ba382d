package sweepbook.analysis.offset;

import java.util.Optional;

/**
 * What is known of the place. NaN: not stated (the result then warns); 0: known to be nil.
 *
 * @param drift_mm_per_s how fast stand or part may creep, as plus or minus
 * @param temperature to take the offset to 20 degrees C; empty to leave it as measured
 */
public record Surroundings(double drift_mm_per_s, Optional<Temperature> temperature) {
    public static final Surroundings NOT_STATED = new Surroundings(Double.NaN, Optional.empty());

    public Surroundings {
        Limit.check("drift", drift_mm_per_s, "mm/s");
    }
}

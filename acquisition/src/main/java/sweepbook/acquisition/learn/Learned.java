package sweepbook.acquisition.learn;

import java.util.List;
import sweepbook.acquisition.wire.IndicatorProfile;

/** What the bytes tell. */
public sealed interface Learned {
    /**
     * One way to read them fits, and no other as well.
     *
     * @param json the profile as a file
     * @param confidence share of the lines that it decodes
     * @param readings what it makes of them, in the indicator's unit
     */
    record Proposed(IndicatorProfile profile, String json, double confidence, List<Double> readings)
            implements Learned {}

    /** None fits, or several do; why, and what would tell them apart. */
    record Refused(String why) implements Learned {}
}

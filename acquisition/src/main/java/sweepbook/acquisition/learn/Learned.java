package sweepbook.acquisition.learn;

import java.util.List;
import sweepbook.acquisition.wire.Decoded;
import sweepbook.acquisition.wire.IndicatorProfile;

/** What the bytes tell. */
public sealed interface Learned {
    /**
     * One way to read them fits, and no other as well.
     *
     * @param json the profile as a file
     * @param confidence share of the frames that it decodes
     * @param values what it makes of them
     */
    record Proposed(IndicatorProfile profile, String json, double confidence, List<Decoded.Value> values)
            implements Learned {}

    /** They are text, but several ways to read it fit equally well, or too little of it came; what the person can do. */
    record Undecided(String why) implements Learned {}

    /** No way to read them fits. */
    record Refused(String why) implements Learned {}
}

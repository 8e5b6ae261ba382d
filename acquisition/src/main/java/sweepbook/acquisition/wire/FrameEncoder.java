package sweepbook.acquisition.wire;

import java.util.Map;
import sweepbook.acquisition.trace.Reading;

/** The bytes that an indicator of the profile would send; what a virtual indicator speaks. */
public final class FrameEncoder {
    private final IndicatorProfile profile;
    private final Scale scale;

    /** Sends in the first unit of the profile. */
    public FrameEncoder(IndicatorProfile profile) {
        this(profile, profile.scales().get(0));
    }

    public FrameEncoder(IndicatorProfile profile, Scale scale) {
        this.profile = profile;
        this.scale = scale;
    }

    /** The frame of a reading, rounded to the display's step. */
    public byte[] encode(Reading reading) {
        double value = rounded(scale.unit().fromMm(reading.reading_mm()));
        return profile.format()
                .print(new FrameFormat.Content.Number(value, "", reading.mark(), reading.time_s(), channel()), scale);
    }

    /** The frame that stands in place of a value; only for a status that the profile has a word for. */
    public byte[] encode(IndicatorStatus status) {
        for (Map.Entry<String, IndicatorStatus> word : profile.statusWords().entrySet()) {
            if (word.getValue() == status) {
                return profile.format().print(new FrameFormat.Content.Word(word.getKey(), channel()), scale);
            }
        }
        throw new IllegalArgumentException("profile '" + profile.name() + "' has no word for " + status.word());
    }

    private String channel() {
        return profile.channel().orElse("");
    }

    /** What a reading becomes on its way through the display: a whole number of its steps. */
    private double rounded(double value) {
        double steps = Math.rint(value / scale.resolution());
        double shown = steps * scale.resolution();
        double power = Math.pow(10, scale.decimals());
        return Math.rint(shown * power) / power + 0.0;
    }
}

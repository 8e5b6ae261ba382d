package sweepbook.acquisition.wire;

import java.util.List;
import java.util.Map;
import java.util.Optional;

/**
 * What travels between an indicator and us.
 *
 * @param line how the serial line is set; over TCP its speed still tells how long a frame's bytes took
 * @param format how frames stand in the stream
 * @param scales the units that the indicator can show; the first holds where a frame does not say
 * @param statusWords what stands in place of a value, and what it means
 * @param channel the address of the frames that are wanted, where several indicators share one line
 * @param request what has to be sent to get a reading; empty where the indicator sends by itself
 * @param onButton whether it sends when its button is pressed, and is silent else
 */
public record IndicatorProfile(
        String name,
        String description,
        LineSettings line,
        FrameFormat format,
        List<Scale> scales,
        Map<String, IndicatorStatus> statusWords,
        Optional<String> channel,
        Optional<Request> request,
        boolean onButton) {
    public IndicatorProfile {
        scales = List.copyOf(scales);
        statusWords = Map.copyOf(statusWords);
    }

    /** Whether frames carry a checksum. */
    public boolean isChecked() {
        return format.isChecked();
    }

    /** Whether frames of the channel are wanted. */
    boolean takes(String address) {
        return channel.isEmpty() || channel.get().equals(address);
    }

    /** Whether readings can carry witness marks. */
    public boolean hasMarks() {
        return format.hasMarks();
    }

    /** The scale that a frame's unit word names; an empty word stands for the first. */
    Optional<Scale> scaleOf(String unitWord) {
        if (unitWord.isBlank()) {
            return Optional.of(scales.get(0));
        }
        return scales.stream()
                .filter(scale -> scale.word().filter(unitWord.strip()::equals).isPresent())
                .findFirst();
    }
}

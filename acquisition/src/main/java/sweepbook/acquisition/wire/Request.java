package sweepbook.acquisition.wire;

import java.nio.charset.StandardCharsets;

/**
 * What is sent to an indicator that answers only when asked.
 *
 * @param text the request's bytes as ISO 8859-1 text
 * @param interval_s from one request to the next
 * @param timeout_s how long an answer may take before the request is sent again
 * @param retries how often it is sent again before the reading counts as lost
 */
public record Request(String text, double interval_s, double timeout_s, int retries) {
    public byte[] bytes() {
        return text.getBytes(StandardCharsets.ISO_8859_1);
    }
}

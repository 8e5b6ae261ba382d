package sweepbook.acquisition.source;

import java.util.Optional;
import sweepbook.acquisition.wire.Request;

/** When to ask an indicator that answers only when asked, and when to give an answer up. Used by one thread. */
final class Asking {
    private final Request request;
    private boolean awaiting;
    private double asked_s;
    private int attempts;
    private double due_s = Double.NEGATIVE_INFINITY;

    Asking(Request request) {
        this.request = request;
    }

    /** Whether an answer is out. */
    boolean awaiting() {
        return awaiting;
    }

    /** What to send at this time, if anything. */
    Optional<byte[]> toSend(double now_s) {
        boolean retry = awaiting && late(now_s) && attempts <= request.retries();
        boolean next = !awaiting && now_s >= due_s;
        if (!retry && !next) {
            return Optional.empty();
        }
        if (next) {
            // An asker that fell behind does not catch up with a burst.
            due_s = Math.max(due_s + request.interval_s(), now_s);
            attempts = 0;
        }
        attempts++;
        asked_s = now_s;
        awaiting = true;
        return Optional.of(request.bytes());
    }

    /** Whether the answer is given up; the next request is then due as if it had come. */
    boolean givesUp(double now_s) {
        if (awaiting && late(now_s) && attempts > request.retries()) {
            awaiting = false;
            return true;
        }
        return false;
    }

    private boolean late(double now_s) {
        return now_s - asked_s >= request.timeout_s();
    }

    /** An answer came, good or bad. */
    void answered() {
        awaiting = false;
    }

    /** How long until something is to be done. */
    double wait_s(double now_s) {
        return Math.max(0, awaiting ? asked_s + request.timeout_s() - now_s : due_s - now_s);
    }

    int attempts() {
        return attempts;
    }
}

package sweepbook.acquisition.link;

import java.time.Duration;

/** An open way to an indicator. Read and write by one thread; close by any. */
public interface Link extends AutoCloseable {
    /** Reads gave no more: the other side has ended. */
    int END = -1;

    /**
     * Waits until bytes are there, but not much longer than told.
     *
     * @return how many bytes were put into the buffer, 0 if none came in time, {@link #END} where there will be none
     * @throws LinkException if the link is lost
     */
    int read(byte[] buffer, Duration timeout) throws LinkException;

    /** Whether a read would bring bytes without waiting; false where the link is lost, which the next read tells. */
    boolean isReady();

    void write(byte[] bytes) throws LinkException;

    @Override
    void close();
}

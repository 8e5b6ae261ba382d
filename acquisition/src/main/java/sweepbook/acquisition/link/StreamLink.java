package sweepbook.acquisition.link;

import java.io.FilterInputStream;
import java.io.IOException;
import java.io.InputStream;
import java.nio.file.AccessDeniedException;
import java.nio.file.Files;
import java.nio.file.NoSuchFileException;
import java.time.Duration;

/** Bytes from a file or the console. A read of the console waits as long as the person does. */
final class StreamLink implements Link {
    private final LinkAddress address;
    private final InputStream in;

    private StreamLink(LinkAddress address, InputStream in) {
        this.address = address;
        this.in = in;
    }

    static StreamLink replay(LinkAddress.Replay address) throws LinkException {
        if (Files.isDirectory(address.file())) {
            throw LinkException.notOpened(address + ": is a directory; name a file");
        }
        try {
            return new StreamLink(address, Files.newInputStream(address.file()));
        } catch (NoSuchFileException e) {
            throw LinkException.notOpened(address + ": no such file; check the name");
        } catch (AccessDeniedException e) {
            throw LinkException.notOpened(address + ": permission denied; check who may read the file");
        } catch (IOException e) {
            throw LinkException.notOpened(address + ": cannot be opened: " + e.getMessage());
        }
    }

    static StreamLink console() {
        // The standard input is not this link's to close, whoever may have put another in its place meanwhile.
        InputStream keyboard = new FilterInputStream(System.in) {
            @Override
            public void close() {}
        };
        return new StreamLink(new LinkAddress.Console(), keyboard);
    }

    @Override
    public int read(byte[] buffer, Duration timeout) throws LinkException {
        try {
            return in.read(buffer);
        } catch (IOException e) {
            throw LinkException.lost(address + ": reading failed: " + e.getMessage());
        }
    }

    @Override
    public boolean isReady() {
        return true;
    }

    @Override
    public void write(byte[] bytes) {
        // Nobody listens: what was recorded holds the answers already.
    }

    @Override
    public void close() {
        try {
            in.close();
        } catch (IOException e) {
            // Nothing was written, so nothing is lost.
        }
    }
}

package sweepbook.cli.command;

import java.io.IOException;
import java.io.OutputStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.concurrent.TimeUnit;
import sweepbook.acquisition.trace.Reading;
import sweepbook.acquisition.wire.FrameEncoder;
import sweepbook.acquisition.wire.Profiles;

/** An indicator on a serial device that sends 0.000, 0.001, 0.002 mm and so on, two hundred a second. */
final class Counting implements AutoCloseable {
    private final OutputStream device;
    private volatile int sent;

    Counting(Path device) throws IOException {
        this.device = Files.newOutputStream(device);
        Thread thread = new Thread(this::talk, "counting indicator");
        thread.setDaemon(true);
        thread.start();
    }

    int sent() {
        return sent;
    }

    private void talk() {
        FrameEncoder encoder = new FrameEncoder(Profiles.bundled("text-mm-stream"));
        try {
            while (true) {
                device.write(encoder.encode(new Reading(0, sent / 1000.0)));
                sent++;
                TimeUnit.MILLISECONDS.sleep(5);
            }
        } catch (IOException closed) {
            // The device has gone.
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
        }
    }

    @Override
    public void close() throws IOException {
        device.close();
    }
}

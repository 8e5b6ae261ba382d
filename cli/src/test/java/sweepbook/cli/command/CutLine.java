package sweepbook.cli.command;

import java.io.IOException;
import java.io.InputStream;
import java.net.InetAddress;
import java.net.ServerSocket;
import java.net.Socket;
import java.util.concurrent.atomic.AtomicInteger;

/** A TCP line to a port of this computer that breaks after so many bytes, again and again; nothing is lost in it. */
final class CutLine implements AutoCloseable {
    private final ServerSocket server;
    private final Socket indicator;
    private final int bytes;
    private final AtomicInteger cuts = new AtomicInteger();

    CutLine(int port, int bytes) throws IOException {
        this.bytes = bytes;
        this.server = new ServerSocket(0, 1, InetAddress.getLoopbackAddress());
        this.indicator = new Socket(InetAddress.getLoopbackAddress(), port);
        Thread thread = new Thread(this::carry, "cut line");
        thread.setDaemon(true);
        thread.start();
    }

    int port() {
        return server.getLocalPort();
    }

    int cuts() {
        return cuts.get();
    }

    private void carry() {
        byte[] piece = new byte[512];
        try (InputStream from = indicator.getInputStream()) {
            while (true) {
                try (Socket to = server.accept()) {
                    int n = 0;
                    for (int left = bytes; left > 0 && n >= 0; left -= n) {
                        n = from.read(piece, 0, Math.min(piece.length, left));
                        to.getOutputStream().write(piece, 0, Math.max(0, n));
                    }
                    if (n < 0) {
                        return;
                    }
                }
                cuts.incrementAndGet();
            }
        } catch (IOException closed) {
            // Nobody needs the line any more.
        }
    }

    @Override
    public void close() throws IOException {
        server.close();
        indicator.close();
    }
}

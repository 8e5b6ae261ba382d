package sweepbook.simulator.serve;

import java.io.Closeable;
import java.io.FileInputStream;
import java.io.FileOutputStream;
import java.io.IOException;
import java.io.InputStream;
import java.io.OutputStream;
import java.net.InetAddress;
import java.net.ServerSocket;
import java.net.Socket;
import java.nio.file.Path;

/** Where a virtual indicator's cable ends. Closing it ends a wait for a client. */
interface Outlet extends Closeable {
    /** Waits until somebody is at the other end. */
    Client accept() throws IOException;

    /** Somebody at the other end. */
    record Client(InputStream in, OutputStream out, Closeable line) implements Closeable {
        @Override
        public void close() throws IOException {
            line.close();
        }
    }

    /** A TCP port on the loopback interface, where no other machine can come. */
    record LoopbackPort(ServerSocket server) implements Outlet {
        /** Port 0 takes any that is free. */
        static LoopbackPort open(int port) throws IOException {
            return new LoopbackPort(new ServerSocket(port, 1, InetAddress.getLoopbackAddress()));
        }

        @Override
        public Client accept() throws IOException {
            Socket socket = server.accept();
            socket.setTcpNoDelay(true);
            return new Client(socket.getInputStream(), socket.getOutputStream(), socket);
        }

        @Override
        public void close() throws IOException {
            server.close();
        }
    }

    /** A serial device by its path; one end of a pair of pseudo-terminals, as a rule. */
    record Device(Path path) implements Outlet {
        @Override
        public Client accept() throws IOException {
            // Two streams, for a file opened once would let no writer in while a reader waits.
            FileInputStream in = new FileInputStream(path.toFile());
            FileOutputStream out = new FileOutputStream(path.toFile());
            return new Client(in, out, () -> {
                out.close();
                in.close();
            });
        }

        @Override
        public void close() {
            // Nothing is held between clients.
        }
    }
}

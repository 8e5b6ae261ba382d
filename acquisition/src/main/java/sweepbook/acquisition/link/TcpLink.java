package sweepbook.acquisition.link;

import java.io.IOException;
import java.net.ConnectException;
import java.net.InetSocketAddress;
import java.net.Socket;
import java.net.SocketTimeoutException;
import java.net.StandardSocketOptions;
import java.time.Duration;
import jdk.net.ExtendedSocketOptions;

/** A serial server or an indicator on the network. */
final class TcpLink implements Link {
    /** A machine on the shop's network answers in milliseconds. */
    private static final int CONNECT_TIMEOUT_MS = 3_000;

    private final LinkAddress.Tcp address;
    private final Socket socket;

    private TcpLink(LinkAddress.Tcp address, Socket socket) {
        this.address = address;
        this.socket = socket;
    }

    static TcpLink open(LinkAddress.Tcp address) throws LinkException {
        Socket socket = new Socket();
        try {
            InetSocketAddress where = new InetSocketAddress(address.host(), address.port());
            if (where.isUnresolved()) {
                throw LinkException.notOpened(
                        address + ": no machine of that name; check the name or write its number");
            }
            socket.setTcpNoDelay(true);
            tellOfDeadPeers(socket);
            socket.connect(where, CONNECT_TIMEOUT_MS);
            return new TcpLink(address, socket);
        } catch (SocketTimeoutException e) {
            close(socket);
            throw LinkException.absent(
                    address + ": does not answer within 3 s; check cable, address and that the device is on");
        } catch (ConnectException e) {
            close(socket);
            throw LinkException.absent(
                    address + ": nobody listens there; check the port number and that the device is on");
        } catch (LinkException e) {
            close(socket);
            throw e;
        } catch (IOException e) {
            close(socket);
            throw LinkException.notOpened(address + ": cannot be opened: " + e.getMessage());
        }
    }

    /** A peer that vanished without a word is found after about ten seconds instead of two hours. */
    private static void tellOfDeadPeers(Socket socket) throws IOException {
        socket.setOption(StandardSocketOptions.SO_KEEPALIVE, true);
        if (socket.supportedOptions().contains(ExtendedSocketOptions.TCP_KEEPIDLE)) {
            socket.setOption(ExtendedSocketOptions.TCP_KEEPIDLE, 4);
            socket.setOption(ExtendedSocketOptions.TCP_KEEPINTERVAL, 2);
            socket.setOption(ExtendedSocketOptions.TCP_KEEPCOUNT, 3);
        }
    }

    @Override
    public int read(byte[] buffer, Duration timeout) throws LinkException {
        try {
            socket.setSoTimeout((int) Math.max(1, timeout.toMillis()));
            return socket.getInputStream().read(buffer);
        } catch (SocketTimeoutException e) {
            return 0;
        } catch (IOException e) {
            throw LinkException.lost(
                    address + ": the connection was lost (" + e.getMessage() + "); check cable and power");
        }
    }

    @Override
    public boolean isReady() {
        try {
            return socket.getInputStream().available() > 0;
        } catch (IOException e) {
            return false;
        }
    }

    @Override
    public void write(byte[] bytes) throws LinkException {
        try {
            socket.getOutputStream().write(bytes);
        } catch (IOException e) {
            throw LinkException.lost(
                    address + ": the connection was lost (" + e.getMessage() + "); check cable and power");
        }
    }

    @Override
    public void close() {
        close(socket);
    }

    private static void close(Socket socket) {
        try {
            socket.close();
        } catch (IOException e) {
            // The other side has gone already.
        }
    }
}

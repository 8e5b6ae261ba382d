package sweepbook.acquisition.link;

import com.fazecast.jSerialComm.SerialPort;
import com.fazecast.jSerialComm.SerialPortInvalidPortException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import sweepbook.acquisition.wire.LineSettings;

/** A serial port; everything that is particular to the port library ends here. */
final class SerialLink implements Link {
    /** Off Windows the library rounds its time-outs to this; a read that finds bytes returns at once. */
    private static final int READ_TIMEOUT_MS = 100;

    private final LinkAddress.Serial address;
    private final SerialPort port;

    private SerialLink(LinkAddress.Serial address, SerialPort port) {
        this.address = address;
        this.port = port;
    }

    static SerialLink open(LinkAddress.Serial address, LineSettings line) throws LinkException {
        String name = address.port();
        Path device = Path.of(name);
        if (name.startsWith("/")) {
            if (!Files.exists(device)) {
                throw absent(address);
            }
            if (!Files.isReadable(device) || !Files.isWritable(device)) {
                throw LinkException.notOpened(address + ": permission denied; " + SerialPorts.PERMISSION_REMEDY);
            }
        }
        SerialPort port;
        try {
            port = SerialPort.getCommPort(name);
        } catch (SerialPortInvalidPortException e) {
            throw absent(address);
        }
        port.setComPortParameters(line.speed_baud(), line.dataBits(), stopBits(line.stopBits()), parity(line.parity()));
        port.setFlowControl(SerialPort.FLOW_CONTROL_DISABLED);
        port.setComPortTimeouts(SerialPort.TIMEOUT_READ_SEMI_BLOCKING, READ_TIMEOUT_MS, 0);
        level(line.dtr(), port::setDTR, port::clearDTR);
        level(line.rts(), port::setRTS, port::clearRTS);
        if (!port.openPort()) {
            throw notOpened(address, port.getLastErrorCode());
        }
        return new SerialLink(address, port);
    }

    private static void level(boolean raised, Runnable raise, Runnable lower) {
        (raised ? raise : lower).run();
    }

    private static int stopBits(LineSettings.StopBits bits) {
        return switch (bits) {
            case ONE -> SerialPort.ONE_STOP_BIT;
            case ONE_AND_A_HALF -> SerialPort.ONE_POINT_FIVE_STOP_BITS;
            case TWO -> SerialPort.TWO_STOP_BITS;
        };
    }

    private static int parity(LineSettings.Parity parity) {
        return switch (parity) {
            case NONE -> SerialPort.NO_PARITY;
            case ODD -> SerialPort.ODD_PARITY;
            case EVEN -> SerialPort.EVEN_PARITY;
            case MARK -> SerialPort.MARK_PARITY;
            case SPACE -> SerialPort.SPACE_PARITY;
        };
    }

    /** The codes are errno on Unix (POSIX) and system error codes on Windows. */
    private static LinkException notOpened(LinkAddress address, int code) {
        boolean windows = System.getProperty("os.name").startsWith("Windows");
        // Besides EBUSY: the lock on the port is held, EWOULDBLOCK, which Linux and macOS number differently.
        if (windows && code == 5 || !windows && (code == 16 || code == 11 || code == 35)) {
            return LinkException.notOpened(address + ": the port is busy; another program has it, end that one first");
        }
        if (!windows && code == 13) {
            return LinkException.notOpened(address + ": permission denied; " + SerialPorts.PERMISSION_REMEDY);
        }
        if (windows && code == 2 || !windows && (code == 2 || code == 6)) {
            return absent(address);
        }
        return LinkException.notOpened(address + ": cannot be opened (error " + code
                + "); is it in use, and does it take these line settings?");
    }

    static LinkException absent(LinkAddress address) {
        return LinkException.absent(address + ": no such port; 'sweepbook links' shows those that are there");
    }

    @Override
    public int read(byte[] buffer, Duration timeout) throws LinkException {
        // A gone port fails at once, and may also report no bytes for ever without waiting: see stillThere.
        int count = port.readBytes(buffer, buffer.length);
        if (count < 0 || count == 0 && !stillThere()) {
            throw lost();
        }
        return count;
    }

    /** The library keeps a port open that has been unplugged; its device file tells. */
    private boolean stillThere() {
        return !address.port().startsWith("/") || Files.exists(Path.of(address.port()));
    }

    @Override
    public boolean isReady() {
        return port.bytesAvailable() > 0;
    }

    @Override
    public void write(byte[] bytes) throws LinkException {
        int written = port.writeBytes(bytes, bytes.length);
        if (written != bytes.length) {
            throw lost();
        }
    }

    private LinkException lost() {
        return LinkException.lost(address + ": the port was lost; plug the cable in again");
    }

    @Override
    public void close() {
        port.closePort();
    }
}

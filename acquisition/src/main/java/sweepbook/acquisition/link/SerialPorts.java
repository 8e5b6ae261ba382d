package sweepbook.acquisition.link;

import com.fazecast.jSerialComm.SerialPort;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

/** The serial ports of this computer. */
public final class SerialPorts {
    /** What to do where a person may not open a port that is there. */
    public static final String PERMISSION_REMEDY =
            "on Linux: 'sudo usermod -aG dialout $USER', then log out and in again";

    private SerialPorts() {}

    /**
     * A port.
     *
     * @param address what to write for it as a link
     * @param description what it is, for a person
     * @param usable whether this person may open it
     * @param identity what its adapter says of itself, the same under any name; empty where that could be said of others
     */
    public record Port(LinkAddress.Serial address, String description, boolean usable, Optional<String> identity) {}

    public static List<Port> list() {
        List<Port> ports = new ArrayList<>();
        for (SerialPort port : SerialPort.getCommPorts()) {
            String path = port.getSystemPortPath();
            Path device = Path.of(path.startsWith("\\") ? port.getSystemPortName() : path);
            boolean usable = !path.startsWith("/") || Files.isReadable(device) && Files.isWritable(device);
            ports.add(new Port(new LinkAddress.Serial(device.toString()), describe(port), usable, identity(port)));
        }
        return ports;
    }

    /** Its make and serial number; where an adapter has none, the socket in which it sticks. */
    private static Optional<String> identity(SerialPort port) {
        if (port.getVendorID() < 0) {
            return Optional.empty();
        }
        String make = String.format("%04x:%04x ", port.getVendorID(), port.getProductID());
        if (isSaid(port.getSerialNumber())) {
            return Optional.of(make + "number " + port.getSerialNumber());
        }
        String socket = port.getPortLocation();
        return isSaid(socket) && !socket.equals("0-0") ? Optional.of(make + "socket " + socket) : Optional.empty();
    }

    private static boolean isSaid(String text) {
        return text != null && !text.isBlank() && !text.equalsIgnoreCase("unknown");
    }

    private static String describe(SerialPort port) {
        String description = port.getPortDescription();
        String name = port.getDescriptivePortName();
        return name.contains(description) ? name : description + ", " + name;
    }
}

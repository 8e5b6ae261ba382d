package sweepbook.acquisition.link;

import com.fazecast.jSerialComm.SerialPort;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;

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
     * @param marks by what it can be known again under another name, the first that no other port has; none where its
     *     adapter says nothing of itself
     */
    public record Port(LinkAddress.Serial address, String description, boolean usable, List<String> marks) {
        public Port {
            marks = List.copyOf(marks);
        }
    }

    public static List<Port> list() {
        List<Port> ports = new ArrayList<>();
        for (SerialPort port : SerialPort.getCommPorts()) {
            String path = port.getSystemPortPath();
            Path device = Path.of(path.startsWith("\\") ? port.getSystemPortName() : path);
            boolean usable = !path.startsWith("/") || Files.isReadable(device) && Files.isWritable(device);
            ports.add(new Port(new LinkAddress.Serial(device.toString()), describe(port), usable, marks(port)));
        }
        return ports;
    }

    /** Make and serial number; where an adapter has none, its make, or if there are several of that make its socket. */
    private static List<String> marks(SerialPort port) {
        if (port.getVendorID() < 0) {
            return List.of();
        }
        String make = String.format("%04x:%04x", port.getVendorID(), port.getProductID());
        if (isSaid(port.getSerialNumber())) {
            return List.of(make + " number " + port.getSerialNumber());
        }
        String socket = port.getPortLocation();
        return isSaid(socket) && !socket.equals("0-0") ? List.of(make, make + " socket " + socket) : List.of(make);
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

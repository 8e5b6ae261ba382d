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
     */
    public record Port(LinkAddress.Serial address, String description, boolean usable) {}

    public static List<Port> list() {
        List<Port> ports = new ArrayList<>();
        for (SerialPort port : SerialPort.getCommPorts()) {
            String path = port.getSystemPortPath();
            Path device = Path.of(path.startsWith("\\") ? port.getSystemPortName() : path);
            boolean usable = !path.startsWith("/") || Files.isReadable(device) && Files.isWritable(device);
            ports.add(new Port(new LinkAddress.Serial(device.toString()), describe(port), usable));
        }
        return ports;
    }

    private static String describe(SerialPort port) {
        String description = port.getPortDescription();
        String name = port.getDescriptivePortName();
        return name.contains(description) ? name : description + ", " + name;
    }
}

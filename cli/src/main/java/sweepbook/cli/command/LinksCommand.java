package sweepbook.cli.command;

import java.io.PrintWriter;
import java.util.List;
import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Spec;
import sweepbook.acquisition.link.SerialPorts;

/** Shows where an indicator may be plugged in. */
@Command(name = "links", description = "List the serial ports of this computer.")
final class LinksCommand implements Callable<Integer> {
    @Spec
    private CommandSpec spec;

    @Override
    public Integer call() {
        PrintWriter out = spec.commandLine().getOut();
        List<SerialPorts.Port> ports = SerialPorts.list();
        for (SerialPorts.Port port : ports) {
            out.println(port.address() + "  " + port.description() + (port.usable() ? "" : "  (permission denied)"));
        }
        if (ports.isEmpty()) {
            out.println("No serial port found. Plug in the indicator's cable or adapter, wait a few seconds, and try"
                    + " again; if none shows up, try another USB socket or cable, or install the adapter's driver."
                    + " Without a port: tcp:HOST:PORT for a serial server, replay:FILE for a recorded trace.");
        }
        if (ports.stream().anyMatch(port -> !port.usable())) {
            out.println("To get permission, " + SerialPorts.PERMISSION_REMEDY + ".");
        }
        return ExitStatus.DONE;
    }
}

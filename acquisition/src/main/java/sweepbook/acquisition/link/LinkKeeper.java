package sweepbook.acquisition.link;

import java.io.IOException;
import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import java.util.function.Supplier;
import java.util.stream.Collectors;
import sweepbook.acquisition.link.SerialPorts.Port;
import sweepbook.acquisition.wire.LineSettings;

/**
 * Opens a link, and opens it again after it was lost. A serial port that comes up under another name is known by what its
 * adapter says of itself; another device that comes up under the old name is not taken for it. Used by one thread.
 */
public final class LinkKeeper {
    private final LineSettings line;
    private final Supplier<List<Port>> ports;
    private LinkAddress address;
    private List<Port> before = List.of();
    private Optional<Port> self = Optional.empty();

    /** A serial line is set as told. */
    public LinkKeeper(LinkAddress address, LineSettings line) {
        this(address, line, SerialPorts::list);
    }

    /** The ports that there are come from elsewhere. */
    public LinkKeeper(LinkAddress address, LineSettings line, Supplier<List<Port>> ports) {
        this.address = address;
        this.line = line;
        this.ports = ports;
    }

    /** Where the link is; changes where a port comes up under another name. */
    public LinkAddress address() {
        return address;
    }

    public Link open() throws LinkException {
        Link link = Links.open(address, line);
        if (address instanceof LinkAddress.Serial serial) {
            before = ports.get();
            self = before.stream()
                    .filter(port -> isSame(port.address(), serial))
                    .findFirst();
        }
        return link;
    }

    /** Opens it again, wherever it is now; the exception says what else there is. */
    public Link reopen() throws LinkException {
        if (!(address instanceof LinkAddress.Serial)) {
            return Links.open(address, line);
        }
        List<Port> now = ports.get();
        List<String> marks = self.stream()
                .flatMap(port -> port.marks().stream())
                .filter(mark -> having(mark, before).size() == 1)
                .toList();
        if (!marks.isEmpty()) {
            address = found(marks, now).orElseThrow(() -> absent(now)).address();
        }
        try {
            return Links.open(address, line);
        } catch (LinkException e) {
            throw e.isAbsent() ? absent(now) : e;
        }
    }

    private static List<Port> having(String mark, List<Port> all) {
        return all.stream().filter(port -> port.marks().contains(mark)).toList();
    }

    /** By the first mark that one port alone has. */
    private static Optional<Port> found(List<String> marks, List<Port> now) {
        return marks.stream()
                .map(mark -> having(mark, now))
                .filter(found -> found.size() == 1)
                .map(found -> found.get(0))
                .findFirst();
    }

    private LinkException absent(List<Port> now) {
        String others = now.stream()
                .filter(port -> !before.contains(port))
                .map(port -> port.address() + " (" + port.description() + ")")
                .collect(Collectors.joining(", "));
        return others.isEmpty()
                ? SerialLink.absent(address)
                : LinkException.notOpened(address + ": has not come back, but " + others
                        + " has come up; if that is the indicator, end here and go on with that link");
    }

    /** By whatever name or link it is called. */
    private static boolean isSame(LinkAddress.Serial one, LinkAddress.Serial other) {
        return one.equals(other) || real(one.port()).equals(real(other.port()));
    }

    private static Path real(String port) {
        try {
            return Path.of(port).toRealPath();
        } catch (IOException e) {
            return Path.of(port);
        }
    }
}

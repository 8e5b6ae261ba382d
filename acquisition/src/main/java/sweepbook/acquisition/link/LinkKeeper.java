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
        Optional<Port> known = self.filter(port -> port.identity().isPresent() && isAlone(port, before));
        if (known.isPresent()) {
            List<Port> found =
                    now.stream().filter(port -> isAlike(port, known.get())).toList();
            if (found.size() != 1) {
                throw absent(now);
            }
            address = found.get(0).address();
        }
        try {
            return Links.open(address, line);
        } catch (LinkException e) {
            throw e.isAbsent() ? absent(now) : e;
        }
    }

    /** Two adapters that say the same of themselves cannot be told apart. */
    private static boolean isAlone(Port self, List<Port> all) {
        return all.stream().filter(port -> isAlike(port, self)).count() == 1;
    }

    private static boolean isAlike(Port one, Port other) {
        return one.identity().equals(other.identity());
    }

    private LinkException absent(List<Port> now) {
        String newcomers = now.stream()
                .filter(port -> before.stream().noneMatch(old -> old.address().equals(port.address())))
                .map(port -> port.address() + " (" + port.description() + ")")
                .collect(Collectors.joining(", "));
        return newcomers.isEmpty()
                ? SerialLink.absent(address)
                : LinkException.notOpened(address + ": has not come back, but " + newcomers
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

package sweepbook.acquisition.link;

import sweepbook.acquisition.wire.LineSettings;

/** Opens links of every kind. */
public final class Links {
    private Links() {}

    /** Opens the link; a serial line is set as told. */
    public static Link open(LinkAddress address, LineSettings line) throws LinkException {
        if (address instanceof LinkAddress.Serial serial) {
            return SerialLink.open(serial, line);
        }
        if (address instanceof LinkAddress.Tcp tcp) {
            return TcpLink.open(tcp);
        }
        if (address instanceof LinkAddress.Replay replay) {
            return StreamLink.replay(replay);
        }
        return StreamLink.console();
    }
}

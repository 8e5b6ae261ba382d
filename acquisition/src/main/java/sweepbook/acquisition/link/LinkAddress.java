package sweepbook.acquisition.link;

import java.nio.file.InvalidPathException;
import java.nio.file.Path;

/** Where an indicator is, as a person writes it. */
public sealed interface LinkAddress {
    /** {@code serial:/dev/ttyUSB0}, {@code serial:COM3}. */
    record Serial(String port) implements LinkAddress {
        @Override
        public String toString() {
            return "serial:" + port;
        }
    }

    /** {@code tcp:HOST:PORT}; an IPv6 host stands in brackets. */
    record Tcp(String host, int port) implements LinkAddress {
        @Override
        public String toString() {
            return "tcp:" + (host.contains(":") ? "[" + host + "]" : host) + ":" + port;
        }
    }

    /** {@code replay:FILE}: a recorded trace, or recorded bytes. */
    record Replay(Path file) implements LinkAddress {
        @Override
        public String toString() {
            return "replay:" + file;
        }
    }

    /** {@code console:}: bytes piped or typed in. */
    record Console() implements LinkAddress {
        @Override
        public String toString() {
            return "console:";
        }
    }

    static LinkAddress parse(String text) throws LinkException {
        int colon = text.indexOf(':');
        String kind = colon < 0 ? "" : text.substring(0, colon);
        String rest = text.substring(colon + 1);
        return switch (kind) {
            case "serial" -> new Serial(filled(text, rest, "serial:PORT, as 'sweepbook links' shows it"));
            case "tcp" -> tcp(text, rest);
            case "replay" -> replay(text, filled(text, rest, "replay:FILE"));
            case "console" -> new Console();
            default ->
                throw LinkException.notOpened(
                        "'" + text + "' is no link; write serial:PORT, tcp:HOST:PORT, replay:FILE or console:");
        };
    }

    private static String filled(String text, String rest, String form) throws LinkException {
        if (rest.isBlank()) {
            throw LinkException.notOpened("'" + text + "' is not whole; write " + form);
        }
        return rest;
    }

    private static Tcp tcp(String text, String rest) throws LinkException {
        int colon = rest.lastIndexOf(':');
        String host = colon < 0 ? "" : rest.substring(0, colon);
        if (host.startsWith("[") && host.endsWith("]")) {
            host = host.substring(1, host.length() - 1);
        }
        try {
            int port = Integer.parseInt(rest.substring(colon + 1));
            if (!host.isBlank() && port >= 1 && port <= 65535) {
                return new Tcp(host, port);
            }
        } catch (NumberFormatException e) {
            // Told below with all other ways to get it wrong.
        }
        throw LinkException.notOpened("'" + text + "' is not whole; write tcp:HOST:PORT with a port from 1 to 65535");
    }

    private static Replay replay(String text, String file) throws LinkException {
        try {
            return new Replay(Path.of(file));
        } catch (InvalidPathException e) {
            throw LinkException.notOpened("'" + text + "' holds no file name: " + e.getReason());
        }
    }
}

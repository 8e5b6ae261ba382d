package sweepbook.acquisition.source;

import java.io.BufferedReader;
import java.io.IOException;
import org.junit.jupiter.api.Assumptions;

/**
 * An indicator on the loopback interface that sends one reading and then vanishes without a word, as behind a cable that
 * is cut beyond the next box. Its end of the connection drops every packet, by a filter that needs no rights; Java cannot
 * set one, so it lives in Perl.
 */
final class VanishingPeer implements AutoCloseable {
    private static final String SCRIPT =
            """
            use strict;
            use Socket;
            $| = 1;
            socket(my $door, AF_INET, SOCK_STREAM, 0) or die $!;
            bind($door, sockaddr_in(0, INADDR_LOOPBACK)) or die $!;
            listen($door, 1) or die $!;
            my ($port) = sockaddr_in(getsockname($door));
            print "$port\\n";
            accept(my $peer, $door) or die $!;
            syswrite($peer, "+001.000\\r\\n");
            <STDIN>;
            # One instruction: return no bytes of the packet.
            my $drop = pack("S C C L", 6, 0, 0, 0);
            setsockopt($peer, SOL_SOCKET, SO_ATTACH_FILTER, pack("S x![P] P", 1, $drop)) or die $!;
            print "gone\\n";
            <STDIN>;
            """;

    private final Process perl;
    private final BufferedReader said;
    private final String port;

    private VanishingPeer(Process perl) throws IOException {
        this.perl = perl;
        this.said = perl.inputReader();
        this.port = said.readLine();
    }

    /** Skips the test where there is no Perl. */
    static VanishingPeer start() throws IOException {
        Process perl;
        try {
            perl = new ProcessBuilder("perl", "-e", SCRIPT)
                    .redirectErrorStream(true)
                    .start();
        } catch (IOException e) {
            Assumptions.abort("perl is not installed: " + e.getMessage());
            throw e;
        }
        return new VanishingPeer(perl);
    }

    String link() {
        return "tcp:127.0.0.1:" + port;
    }

    /** From the return on no packet reaches it. */
    void vanish() throws IOException {
        perl.outputWriter().write("\n");
        perl.outputWriter().flush();
        String answer = said.readLine();
        if (!"gone".equals(answer)) {
            throw new IOException("the peer could not vanish: " + answer);
        }
    }

    @Override
    public void close() {
        perl.destroyForcibly();
    }
}

package sweepbook.cli.report;

import java.io.BufferedInputStream;
import java.io.IOException;
import java.io.InputStream;
import java.io.OutputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.security.DigestInputStream;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.util.ArrayList;
import java.util.HexFormat;
import java.util.List;
import sweepbook.acquisition.trace.Trace;

/**
 * The file that figures were found in: what it takes to tell later that they were found in this one.
 *
 * @param sha256 of all its bytes
 * @param comments at its head, without their sign
 * @param lasted_s from its first reading to its last
 */
public record TraceFile(Path path, String sha256, List<String> comments, int readings, double lasted_s) {
    private static final int LONGEST_COMMENT = 200;

    public TraceFile {
        comments = List.copyOf(comments);
    }

    /** The file from which the trace was read. */
    public static TraceFile of(Path path, Trace trace) throws IOException {
        MessageDigest digest = digest();
        List<String> comments;
        try (InputStream in = new DigestInputStream(new BufferedInputStream(Files.newInputStream(path)), digest)) {
            comments = comments(in);
            in.transferTo(OutputStream.nullOutputStream());
        }
        int last = trace.size() - 1;
        return new TraceFile(
                path,
                HexFormat.of().formatHex(digest.digest()),
                comments,
                trace.size(),
                trace.time_s(last) - trace.time_s(0));
    }

    private static List<String> comments(InputStream in) throws IOException {
        List<String> comments = new ArrayList<>();
        int c = in.read();
        while (c == '#') {
            byte[] comment = new byte[LONGEST_COMMENT];
            int length = 0;
            for (c = in.read(); c >= 0 && c != '\n'; c = in.read()) {
                if (length < LONGEST_COMMENT) {
                    comment[length++] = (byte) c;
                }
            }
            comments.add(new String(comment, 0, length, StandardCharsets.UTF_8).strip());
            c = in.read();
        }
        return comments;
    }

    private static MessageDigest digest() {
        try {
            return MessageDigest.getInstance("SHA-256");
        } catch (NoSuchAlgorithmException e) {
            throw new IllegalStateException("every Java has SHA-256", e);
        }
    }

    /** Its name without folders. */
    public String name() {
        return path.getFileName().toString();
    }

    /** Adds what an auditor asks for. */
    Page.Facts to(Page.Facts facts) {
        return facts.add("Trace file", name())
                .add("Its SHA-256", sha256)
                .add("Readings in it", readings + " in " + Figures.plain(lasted_s, 1) + " s")
                .add("Its comments", String.join("; ", comments));
    }
}

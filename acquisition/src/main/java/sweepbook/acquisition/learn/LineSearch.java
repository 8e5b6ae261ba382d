package sweepbook.acquisition.learn;

import java.io.ByteArrayOutputStream;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.function.Consumer;
import sweepbook.acquisition.link.Link;
import sweepbook.acquisition.link.LinkAddress;
import sweepbook.acquisition.link.LinkException;
import sweepbook.acquisition.time.Clock;
import sweepbook.acquisition.wire.IndicatorProfile;
import sweepbook.acquisition.wire.LineSettings;
import sweepbook.acquisition.wire.LineSettings.Parity;
import sweepbook.acquisition.wire.LineSettings.StopBits;
import sweepbook.acquisition.wire.Profiles;
import sweepbook.acquisition.wire.Request;

/**
 * Listens on a link at one speed after the other, and asks if nobody speaks, until the bytes tell a profile. Used by one
 * thread.
 */
public final class LineSearch {
    /** Common speeds, the commonest first. */
    private static final List<Integer> SPEEDS = List.of(9600, 115200, 4800, 19200, 2400, 1200, 38400, 57600);
    /** Enough for hundreds of readings; a recording is not read further. */
    private static final int MOST_BYTES = 1 << 16;
    /** Requests follow each other no faster. */
    private static final double ASK_AGAIN_S = 0.1;

    /** Of bytes heard with a wrong parity some are good; of those heard at a wrong speed hardly any are characters. */
    private static final double MOSTLY = 0.9;

    private final LinkAddress address;
    private final Opener opener;
    private final Clock clock;
    private final Duration listen;
    private final Hints hints;
    private final Consumer<String> told;

    /** Opens a link with the line set as told. */
    public interface Opener {
        Link open(LinkAddress address, LineSettings line) throws LinkException;
    }

    /**
     * @param listen how long at each speed, while the plunger is moved
     * @param told is told what is being tried
     */
    public LineSearch(
            LinkAddress address, Opener opener, Clock clock, Duration listen, Hints hints, Consumer<String> told) {
        this.address = address;
        this.opener = opener;
        this.clock = clock;
        this.listen = listen;
        this.hints = hints;
        this.told = told;
    }

    public Learned search() throws LinkException {
        boolean serial = isSerial();
        Learned last = new Learned.Refused("nothing came; is the indicator on, and does it send by itself, on a button,"
                + " or only when asked? Press its button while this listens, or see its description for the request");
        List<LineSettings> untried = new ArrayList<>();
        boolean silent = true;
        for (int speed_baud : serial ? SPEEDS : SPEEDS.subList(0, 1)) {
            LineSettings eight = LineSettings.eightNoneOne(speed_baud);
            byte[] bytes = heard(eight, Optional.empty());
            if (bytes.length == 0) {
                continue;
            }
            silent = false;
            last = learn(bytes, eight);
            if (serial && last instanceof Learned.Refused) {
                List<LineSettings> parities = List.of(eight.with(8, Parity.EVEN), eight.with(8, Parity.ODD));
                if (!looksLikeText(bytes)) {
                    untried.addAll(parities);
                } else {
                    last = firstUnderstood(parities, last);
                }
            }
            if (!(last instanceof Learned.Refused)) {
                return last;
            }
        }
        return silent ? ask().orElse(last) : firstUnderstood(untried, last);
    }

    private boolean isSerial() {
        return address instanceof LinkAddress.Serial;
    }

    private Learned firstUnderstood(List<LineSettings> settings, Learned otherwise) throws LinkException {
        for (LineSettings line : settings) {
            Learned learned = new Learner(line, true, Optional.empty(), hints).learn(heard(line, Optional.empty()));
            if (!(learned instanceof Learned.Refused)) {
                return learned;
            }
        }
        return otherwise;
    }

    /** A byte that came with a wrong stop bit or parity is handed over as zero. */
    private static boolean looksLikeText(byte[] bytes) {
        int sound = 0;
        int text = 0;
        for (byte b : bytes) {
            sound += b == 0 ? 0 : 1;
            text += b >= ' ' && b < 0x7f || b == '\r' || b == '\n' ? 1 : 0;
        }
        return text > 0 && text >= MOSTLY * sound;
    }

    /** Seven bits look, at eight without parity, as if the highest were a parity, or always set by a second stop bit. */
    private Learned learn(byte[] bytes, LineSettings eight) {
        int odd = 0;
        int high = 0;
        for (byte b : bytes) {
            odd += Integer.bitCount(b & 0xff) & 1;
            high += b < 0 ? 1 : 0;
        }
        Optional<LineSettings> line = Optional.empty();
        if (high > 0 && odd == 0) {
            line = Optional.of(eight.with(7, Parity.EVEN));
        } else if (high > 0 && odd == bytes.length) {
            line = Optional.of(eight.with(7, Parity.ODD));
        } else if (high == bytes.length) {
            line = Optional.of(
                    new LineSettings(eight.speed_baud(), 7, Parity.NONE, StopBits.TWO, eight.dtr(), eight.rts()));
        }
        if (line.isEmpty()) {
            return new Learner(eight, isSerial(), Optional.empty(), hints).learn(bytes);
        }
        byte[] seven = new byte[bytes.length];
        for (int i = 0; i < bytes.length; i++) {
            seven[i] = (byte) (bytes[i] & 0x7f);
        }
        return new Learner(line.get(), isSerial(), Optional.empty(), hints).learn(seven);
    }

    /** Sends the requests of the bundled profiles, each at its own settings. */
    private Optional<Learned> ask() throws LinkException {
        for (String name : Profiles.BUNDLED) {
            IndicatorProfile profile = Profiles.bundled(name);
            if (profile.request().isPresent()) {
                told.accept("asking as in " + name);
                byte[] answers = heard(profile.line(), profile.request());
                Learned learned = new Learner(profile.line(), true, profile.request(), hints).learn(answers);
                if (!(learned instanceof Learned.Refused)) {
                    return Optional.of(learned);
                }
            }
        }
        return Optional.empty();
    }

    private byte[] heard(LineSettings line, Optional<Request> request) throws LinkException {
        if (request.isEmpty()) {
            told.accept(isSerial() ? "listening at " + line.speed_baud() + " baud, " + line.frame() : "listening");
        }
        ByteArrayOutputStream bytes = new ByteArrayOutputStream();
        byte[] buffer = new byte[4096];
        try (Link link = opener.open(address, line)) {
            double start_s = clock.monotonic_s();
            double due_s = start_s;
            double now_s = start_s;
            while (now_s - start_s < listen.toNanos() / 1e9 && bytes.size() < MOST_BYTES) {
                if (request.isPresent() && now_s >= due_s) {
                    link.write(request.get().bytes());
                    due_s = now_s + Math.max(ASK_AGAIN_S, request.get().interval_s());
                }
                int count = link.read(buffer, Duration.ofMillis(100));
                if (count == Link.END) {
                    break;
                }
                bytes.write(buffer, 0, count);
                now_s = clock.monotonic_s();
            }
        }
        return bytes.toByteArray();
    }
}

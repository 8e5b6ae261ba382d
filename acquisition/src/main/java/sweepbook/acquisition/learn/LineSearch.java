package sweepbook.acquisition.learn;

import java.io.ByteArrayOutputStream;
import java.time.Duration;
import java.util.List;
import java.util.Optional;
import java.util.function.Consumer;
import sweepbook.acquisition.link.Link;
import sweepbook.acquisition.link.LinkAddress;
import sweepbook.acquisition.link.LinkException;
import sweepbook.acquisition.link.Links;
import sweepbook.acquisition.time.Clock;
import sweepbook.acquisition.trace.LengthUnit;
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

    private final LinkAddress address;
    private final Clock clock;
    private final Duration listen;
    private final Optional<LengthUnit> unit;
    private final Optional<Integer> number;
    private final Consumer<String> told;

    /**
     * @param listen how long at each speed, while the plunger is moved
     * @param unit what the display shows, where frames do not say
     * @param number which changing number of a line is the reading, where there are several
     * @param told is told what is being tried
     */
    public LineSearch(
            LinkAddress address,
            Clock clock,
            Duration listen,
            Optional<LengthUnit> unit,
            Optional<Integer> number,
            Consumer<String> told) {
        this.address = address;
        this.clock = clock;
        this.listen = listen;
        this.unit = unit;
        this.number = number;
        this.told = told;
    }

    public Learned search() throws LinkException {
        boolean serial = address instanceof LinkAddress.Serial;
        Learned best = new Learned.Refused("nothing came; is the indicator on, and does it send by itself, on a button,"
                + " or only when asked? Press its button while this listens, or see its description for the request");
        boolean silent = true;
        for (int speed_baud : serial ? SPEEDS : SPEEDS.subList(0, 1)) {
            told.accept(serial ? "listening at " + speed_baud + " baud" : "listening");
            byte[] bytes = heard(LineSettings.eightNoneOne(speed_baud), Optional.empty());
            if (bytes.length > 0) {
                silent = false;
                best = learn(bytes, speed_baud);
                if (best instanceof Learned.Proposed) {
                    return best;
                }
            }
        }
        return silent ? ask().orElse(best) : best;
    }

    /** Seven bits with parity look, at eight without, like text whose highest bit makes the count of bits even or odd. */
    private Learned learn(byte[] bytes, int speed_baud) {
        LineSettings eight = LineSettings.eightNoneOne(speed_baud);
        int odd = 0;
        int high = 0;
        for (byte b : bytes) {
            odd += Integer.bitCount(b & 0xff) & 1;
            high += b < 0 ? 1 : 0;
        }
        boolean parity = high > 0 && (odd == 0 || odd == bytes.length);
        if (!parity) {
            return Learner.learn(bytes, eight, unit, number);
        }
        byte[] seven = new byte[bytes.length];
        for (int i = 0; i < bytes.length; i++) {
            seven[i] = (byte) (bytes[i] & 0x7f);
        }
        LineSettings line = new LineSettings(
                speed_baud, 7, odd == 0 ? Parity.EVEN : Parity.ODD, StopBits.ONE, eight.dtr(), eight.rts());
        return Learner.learn(seven, line, unit, number);
    }

    /** Sends the requests of the bundled profiles, each at its own settings. */
    private Optional<Learned> ask() throws LinkException {
        for (String name : Profiles.BUNDLED) {
            IndicatorProfile profile = Profiles.bundled(name);
            if (profile.request().isPresent()) {
                told.accept("asking as in " + name);
                Optional<Learned> answered = Learner.answered(name, heard(profile.line(), profile.request()));
                if (answered.isPresent()) {
                    return answered;
                }
            }
        }
        return Optional.empty();
    }

    private byte[] heard(LineSettings line, Optional<Request> request) throws LinkException {
        ByteArrayOutputStream bytes = new ByteArrayOutputStream();
        byte[] buffer = new byte[4096];
        try (Link link = Links.open(address, line)) {
            double end_s = clock.monotonic_s() + listen.toNanos() / 1e9;
            while (clock.monotonic_s() < end_s && bytes.size() < MOST_BYTES) {
                if (request.isPresent()) {
                    link.write(request.get().bytes());
                }
                int count = link.read(buffer, Duration.ofMillis(100));
                if (count == Link.END) {
                    break;
                }
                bytes.write(buffer, 0, count);
            }
        }
        return bytes.toByteArray();
    }
}

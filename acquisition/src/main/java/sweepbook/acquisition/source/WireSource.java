package sweepbook.acquisition.source;

import java.io.IOException;
import java.time.Duration;
import java.util.Optional;
import java.util.concurrent.ArrayBlockingQueue;
import java.util.concurrent.BlockingQueue;
import java.util.concurrent.TimeUnit;
import java.util.function.Consumer;
import sweepbook.acquisition.link.Link;
import sweepbook.acquisition.link.LinkAddress;
import sweepbook.acquisition.link.LinkException;
import sweepbook.acquisition.link.Links;
import sweepbook.acquisition.source.Event.EndOfInput;
import sweepbook.acquisition.source.Event.FrameDropped;
import sweepbook.acquisition.source.Event.LinkBack;
import sweepbook.acquisition.source.Event.LinkLost;
import sweepbook.acquisition.source.Event.NothingYet;
import sweepbook.acquisition.time.Clock;
import sweepbook.acquisition.trace.LengthUnit;
import sweepbook.acquisition.wire.IndicatorProfile;

/**
 * The readings that come over a link. A thread of its own reads the link, so that bytes get their time when they arrive
 * and not when somebody asks.
 */
final class WireSource implements ReadingSource {
    /** Half a minute of the fastest indicators. */
    static final int CAPACITY = 65_536;

    /** How soon the reading thread sees that it shall end. */
    private static final double POLL_S = 0.1;

    /** Between attempts to open a lost link again. */
    private static final double REOPEN_S = 0.25;

    private final LinkAddress address;
    private final IndicatorProfile profile;
    private final Clock clock;
    private final Duration patience;
    private final WireReader reader;
    private final BlockingQueue<Event> events = new ArrayBlockingQueue<>(CAPACITY);
    private final Thread thread;
    private final byte[] buffer = new byte[8192];
    private volatile boolean closed;
    private volatile IOException failure;
    private volatile boolean over;
    private Link link;
    private long bytes;

    private WireSource(LinkAddress address, IndicatorProfile profile, Clock clock, Duration patience, Link link) {
        this.address = address;
        this.profile = profile;
        this.clock = clock;
        this.patience = patience;
        this.link = link;
        this.reader = new WireReader(address.toString(), profile);
        this.thread = new Thread(this::run, "link " + address);
        thread.setDaemon(true);
    }

    static WireSource open(LinkAddress address, IndicatorProfile profile, Clock clock, Duration patience)
            throws LinkException {
        Link link = Links.open(address, profile.line());
        WireSource source = new WireSource(address, profile, clock, patience, link);
        source.thread.start();
        return source;
    }

    private void run() {
        try {
            boolean ended = false;
            while (!ended && !closed) {
                try {
                    ended = profile.request().isPresent() && isLive() ? ask() : listen();
                } catch (LinkException e) {
                    reopen(e);
                }
            }
            reader.giveUp("the input ended within it", this::put);
        } catch (IOException e) {
            failure = e;
        } catch (RuntimeException e) {
            failure = new IOException("reading " + address + " failed: " + e, e);
        } catch (InterruptedException e) {
            // Closed while it waited.
        } finally {
            link.close();
            put(EndOfInput.END_OF_INPUT);
        }
    }

    /** Whether somebody sends now, not a recording. */
    private boolean isLive() {
        return address instanceof LinkAddress.Serial || address instanceof LinkAddress.Tcp;
    }

    /** Takes what an indicator sends by itself; true when there will be no more. */
    private boolean listen() throws IOException {
        while (!closed) {
            if (!read(POLL_S, this::put)) {
                return true;
            }
        }
        return true;
    }

    /** Asks for one reading after the other. */
    private boolean ask() throws IOException, InterruptedException {
        Asking asking = new Asking(profile.request().orElseThrow());
        while (!closed) {
            double now_s = clock.monotonic_s();
            if (asking.givesUp(now_s)) {
                reader.giveUp("the answer stopped half-way", this::put);
                put(new FrameDropped(now_s, "", "no answer to " + asking.attempts() + " requests"));
            }
            Optional<byte[]> request = asking.toSend(now_s);
            if (request.isPresent()) {
                link.write(request.get());
            }
            double wait_s = Math.min(POLL_S, asking.wait_s(now_s));
            if (!asking.awaiting()) {
                Thread.sleep(Math.round(wait_s * 1e3));
            } else if (!read(wait_s, event -> {
                asking.answered();
                put(event);
            })) {
                return true;
            }
        }
        return true;
    }

    /** Reads once; false at the end of the input. */
    private boolean read(double timeout_s, Consumer<Event> sink) throws IOException {
        int count = link.read(buffer, Duration.ofNanos(Math.round(timeout_s * 1e9)));
        if (count == Link.END) {
            if (isLive()) {
                throw LinkException.lost(address + ": the other side closed the connection; check the device");
            }
            return false;
        }
        if (count > 0) {
            bytes += count;
            // A recording was not sent when it is read: the wire's own pace is all that is known of its times.
            double arrival_s =
                    isLive() ? clock.monotonic_s() : bytes * profile.line().byteTime_s();
            reader.take(buffer, count, arrival_s, sink);
        }
        return true;
    }

    /** Tries until the link is open again; throws the loss once patience is over. */
    private void reopen(LinkException loss) throws LinkException, InterruptedException {
        link.close();
        double lost_s = clock.monotonic_s();
        reader.startAnew(lost_s, this::put);
        put(new LinkLost(lost_s, loss.getMessage()));
        while (!closed) {
            if (clock.monotonic_s() - lost_s >= patience.toNanos() / 1e9) {
                throw loss;
            }
            Thread.sleep(Math.round(REOPEN_S * 1e3));
            try {
                link = Links.open(address, profile.line());
                double now_s = clock.monotonic_s();
                put(new LinkBack(now_s, now_s - lost_s));
                return;
            } catch (LinkException stillGone) {
                // Tried again until patience is over; the loss is what is told then.
            }
        }
    }

    /** Waits where the queue is full: whoever sends over TCP or from a file then waits too, and nothing is lost. */
    private void put(Event event) {
        try {
            while (!events.offer(event, 100, TimeUnit.MILLISECONDS)) {
                if (closed) {
                    return;
                }
            }
        } catch (InterruptedException e) {
            closed = true;
        }
    }

    @Override
    public String name() {
        return address.toString();
    }

    @Override
    public Event next(Duration timeout) throws IOException {
        if (!over) {
            Event event = take(timeout);
            if (event != EndOfInput.END_OF_INPUT) {
                return event;
            }
            over = true;
        }
        if (failure != null) {
            throw failure;
        }
        return EndOfInput.END_OF_INPUT;
    }

    private Event take(Duration timeout) {
        try {
            Event event = events.poll(timeout.toNanos(), TimeUnit.NANOSECONDS);
            return event == null ? NothingYet.NOTHING_YET : event;
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
            return NothingYet.NOTHING_YET;
        }
    }

    @Override
    public LengthUnit unit() {
        return reader.scale().unit();
    }

    @Override
    public double resolution_mm() {
        return reader.scale().resolution_mm();
    }

    @Override
    public boolean hasMarks() {
        return profile.hasMarks();
    }

    /** Ends the reading thread; only a read of the console cannot be ended and is left to the end of the program. */
    @Override
    public void close() {
        closed = true;
        thread.interrupt();
        if (!(address instanceof LinkAddress.Console)) {
            try {
                thread.join(2_000);
            } catch (InterruptedException e) {
                Thread.currentThread().interrupt();
            }
        }
    }
}

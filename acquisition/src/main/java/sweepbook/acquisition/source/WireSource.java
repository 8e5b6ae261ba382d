package sweepbook.acquisition.source;

import java.io.IOException;
import java.time.Duration;
import java.util.Optional;
import java.util.concurrent.ArrayBlockingQueue;
import java.util.concurrent.BlockingQueue;
import java.util.concurrent.TimeUnit;
import sweepbook.acquisition.link.Link;
import sweepbook.acquisition.link.LinkAddress;
import sweepbook.acquisition.link.LinkException;
import sweepbook.acquisition.link.LinkKeeper;
import sweepbook.acquisition.source.Event.EndOfInput;
import sweepbook.acquisition.source.Event.LinkBack;
import sweepbook.acquisition.source.Event.LinkLost;
import sweepbook.acquisition.source.Event.LinkStillLost;
import sweepbook.acquisition.source.Event.NothingYet;
import sweepbook.acquisition.source.Event.Silence;
import sweepbook.acquisition.time.Clock;
import sweepbook.acquisition.trace.LengthUnit;
import sweepbook.acquisition.wire.IndicatorProfile;
import sweepbook.acquisition.wire.Request;

/**
 * The readings that come over a link. A thread of its own reads the link, so that bytes get their time when they arrive
 * and not when somebody asks.
 */
final class WireSource implements ReadingSource {
    /** Half a minute of the fastest indicators. */
    static final int CAPACITY = 65_536;

    /** How soon the reading thread sees that it shall end. */
    private static final double POLL_S = 0.1;

    /** Between requests an answer that was given up may still come: so soon it is heard. */
    private static final double BETWEEN_S = 0.005;

    /** Between attempts to open a lost link again. */
    private static final double REOPEN_S = 0.25;

    /** Nothing for so long ends whatever was being sent. */
    private static final double QUIET_S = 0.05;

    /** Nothing for so long is told. */
    private static final double SILENCE_S = 5;

    /** A connection over which requests go unanswered for so long may have nobody at its other end any more. */
    private static final double UNANSWERED_S = 10;

    private final LinkAddress address;
    private final IndicatorProfile profile;
    private final LinkKeeper keeper;
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
    private double heard_s;
    private boolean silenceTold;
    private boolean doubted;

    private WireSource(LinkKeeper keeper, IndicatorProfile profile, Clock clock, Duration patience)
            throws LinkException {
        this.address = keeper.address();
        this.profile = profile;
        this.keeper = keeper;
        this.clock = clock;
        this.patience = patience;
        this.link = keeper.open();
        this.reader = new WireReader(address.toString(), profile, this::put);
        this.thread = new Thread(this::run, "link " + address);
        thread.setDaemon(true);
    }

    static WireSource open(LinkAddress address, IndicatorProfile profile, Clock clock, Duration patience)
            throws LinkException {
        return open(new LinkKeeper(address, profile.line()), profile, clock, patience);
    }

    static WireSource open(LinkKeeper keeper, IndicatorProfile profile, Clock clock, Duration patience)
            throws LinkException {
        WireSource source = new WireSource(keeper, profile, clock, patience);
        source.thread.start();
        return source;
    }

    private void run() {
        try {
            boolean ended = false;
            heard_s = clock.monotonic_s();
            while (!ended && !closed) {
                try {
                    ended = profile.request().isPresent() && isLive() ? ask() : listen();
                } catch (LinkException e) {
                    reopen(e);
                }
            }
            reader.end("the input ended within it");
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
            if (!read(POLL_S, () -> {})) {
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
                reader.unanswered(now_s, asking.attempts());
            }
            Optional<byte[]> request = asking.toSend(now_s);
            if (request.isPresent()) {
                link.write(request.get());
            }
            double wait_s = Math.min(POLL_S, asking.wait_s(now_s));
            if (!asking.awaiting() && !link.isReady()) {
                Thread.sleep(Math.round(Math.min(wait_s, BETWEEN_S) * 1e3));
            } else if (!read(wait_s, asking::answered)) {
                return true;
            }
        }
        return true;
    }

    /** Reads once, and says when a frame came to its end; false at the end of the input. */
    private boolean read(double timeout_s, Runnable frameEnded) throws IOException {
        int count = link.read(buffer, Duration.ofNanos(Math.round(timeout_s * 1e9)));
        if (count == Link.END) {
            if (isLive()) {
                throw LinkException.lost(keeper.address() + ": the other side closed the connection; check the device");
            }
            return false;
        }
        if (count == 0) {
            nothingCame();
            return true;
        }
        bytes += count;
        // A recording was not sent when it is read: the wire's own pace is all that is known of its times.
        heard_s = isLive() ? clock.monotonic_s() : bytes * profile.line().byteTime_s();
        silenceTold = false;
        doubted = false;
        if (reader.take(buffer, count, heard_s)) {
            frameEnded.run();
        }
        return true;
    }

    private void nothingCame() throws IOException {
        double now_s = clock.monotonic_s();
        double since_s = now_s - heard_s;
        if (since_s >= QUIET_S) {
            reader.idle(now_s);
        }
        double pause_s = profile.request().map(Request::interval_s).orElse(0.0);
        if (since_s >= SILENCE_S + pause_s && !silenceTold && !profile.onButton()) {
            silenceTold = true;
            reader.giveUp("its rest did not come");
            put(new Silence(reader.onTrace_s(now_s), since_s));
        }
        boolean asked = profile.request().isPresent();
        if (since_s >= UNANSWERED_S + pause_s && asked && !doubted && address instanceof LinkAddress.Tcp) {
            // Once only: a connection that opens again and stays silent has an indicator that is off behind it.
            doubted = true;
            throw LinkException.lost(keeper.address() + ": no answer for " + Math.round(since_s)
                    + " s; check the indicator's cable and power");
        }
    }

    /** Tries until the link is open again; throws the loss once patience is over. */
    private void reopen(LinkException loss) throws LinkException, InterruptedException {
        link.close();
        double lost_s = clock.monotonic_s();
        reader.startAnew(lost_s);
        put(new LinkLost(reader.onTrace_s(lost_s), loss.getMessage()));
        String told = "";
        while (!closed) {
            double now_s = clock.monotonic_s();
            if (now_s - lost_s >= patience.toNanos() / 1e9) {
                throw told.isEmpty() ? loss : LinkException.lost(told);
            }
            Thread.sleep(Math.round(REOPEN_S * 1e3));
            try {
                link = keeper.reopen();
                heard_s = clock.monotonic_s();
                silenceTold = false;
                put(new LinkBack(
                        reader.onTrace_s(heard_s),
                        heard_s - lost_s,
                        keeper.address().toString()));
                return;
            } catch (LinkException stillGone) {
                String why = stillGone.getMessage();
                if (!stillGone.isAbsent() && !why.equals(told)) {
                    told = why;
                    put(new LinkStillLost(reader.onTrace_s(clock.monotonic_s()), why));
                }
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

package sweepbook.simulator.serve;

import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayDeque;
import java.util.Arrays;
import java.util.Deque;
import sweepbook.acquisition.trace.LengthUnit;
import sweepbook.acquisition.trace.Reading;
import sweepbook.acquisition.wire.Decoded;
import sweepbook.acquisition.wire.FrameDecoder;
import sweepbook.acquisition.wire.FrameEncoder;
import sweepbook.acquisition.wire.IndicatorProfile;
import sweepbook.acquisition.wire.Scale;
import sweepbook.simulator.job.VirtualJob;
import sweepbook.simulator.job.VirtualTouch;

/**
 * A virtual indicator on a cable: what the virtual technician does in a job comes out as the bytes of a profile. One client at a
 * time; when it leaves, the next may come. Any thread may call it.
 */
public final class IndicatorServer implements AutoCloseable {
    private final VirtualJob job;
    private final IndicatorProfile profile;
    private final FrameEncoder encoder;
    private final Pace pace;
    private final Outlet outlet;
    private final long startNanos = System.nanoTime();
    private final Deque<Reading> pending = new ArrayDeque<>();
    private Outlet.Client client;
    private long sent;
    private long taken;
    private boolean asked;
    private boolean closed;

    private IndicatorServer(VirtualJob job, IndicatorProfile profile, Pace pace, Outlet outlet) {
        this.job = job;
        this.profile = profile;
        this.pace = pace;
        this.outlet = outlet;
        this.encoder = encoder(profile, job.indicatorSettings().display().unit());
        if (!isReadBack(encoder.encode(new Reading(0, 0)), profile)) {
            throw new IllegalArgumentException("a frame as it would be sent is none that profile '" + profile.name()
                    + "' reads; say in its template how a line is written");
        }
        if (pace.times() != 1 && !tellsTime(encoder)) {
            throw new IllegalArgumentException("the frames of profile '" + profile.name()
                    + "' carry no time: they can be sent at their true cadence only");
        }
    }

    /** Listens on the loopback interface; port 0 takes any that is free. */
    public static IndicatorServer onLoopback(VirtualJob job, IndicatorProfile profile, Pace pace, int port)
            throws IOException {
        return new IndicatorServer(job, profile, pace, Outlet.LoopbackPort.open(port)).started();
    }

    /** Speaks on a serial device, such as one end of a pair of pseudo-terminals. */
    public static IndicatorServer onDevice(VirtualJob job, IndicatorProfile profile, Pace pace, Path device) {
        return new IndicatorServer(job, profile, pace, new Outlet.Device(device)).started();
    }

    /** The TCP port, where it listens on one. */
    public int port() {
        return ((Outlet.LoopbackPort) outlet).server().getLocalPort();
    }

    /**
     * Has the virtual technician make a touch, and returns when its last reading has gone out. As fast as the link, that is when
     * somebody has taken it; at the true cadence readings go by, as in a shop, where nobody listens.
     */
    public synchronized VirtualTouch touch(String offset, int touch) throws InterruptedException, IOException {
        VirtualTouch made = job.touch(offset, touch);
        for (int i = 0; i < made.trace().size(); i++) {
            pending.add(made.trace().reading(i));
        }
        awaitSent();
        return made;
    }

    /** Has the virtual technician hold still for a while longer, and returns when the last reading of it has gone out. */
    public synchronized void hold(double duration_s) throws InterruptedException, IOException {
        Reading reading = job.standing();
        for (double until_s = reading.time_s() + duration_s; reading.time_s() < until_s; reading = job.standing()) {
            pending.add(reading);
        }
        pending.add(reading);
        awaitSent();
    }

    private void awaitSent() throws InterruptedException, IOException {
        long sentThen = sent + pending.size();
        notifyAll();
        while (sent < sentThen) {
            if (closed) {
                throw new IOException("the link of the virtual indicator is closed");
            }
            wait();
        }
    }

    /** How many readings have gone out to somebody. */
    public synchronized long taken() {
        return taken;
    }

    @Override
    public void close() throws IOException {
        synchronized (this) {
            closed = true;
            notifyAll();
            drop(client);
        }
        outlet.close();
    }

    private IndicatorServer started() {
        start("simulator-listens", this::listen);
        start("simulator-sends", this::send);
        return this;
    }

    private static void start(String name, Runnable work) {
        Thread thread = new Thread(work, name);
        thread.setDaemon(true);
        thread.start();
    }

    /** Lets one client after the other in, and hears its requests. */
    private void listen() {
        try {
            while (!isClosed()) {
                Outlet.Client guest = outlet.accept();
                synchronized (this) {
                    client = guest;
                    asked = false;
                    notifyAll();
                }
                hear(guest);
                drop(guest);
            }
        } catch (IOException closedOrGone) {
            // No client can come any more: the outlet was closed, or the device is gone.
            synchronized (this) {
                closed = true;
                notifyAll();
            }
        }
    }

    private void hear(Outlet.Client guest) {
        byte[] request = profile.request().map(r -> r.bytes()).orElse(new byte[0]);
        byte[] heard = new byte[request.length];
        try {
            for (int next = guest.in().read(); next >= 0; next = guest.in().read()) {
                if (heard.length > 0) {
                    System.arraycopy(heard, 1, heard, 0, heard.length - 1);
                    heard[heard.length - 1] = (byte) next;
                    if (Arrays.equals(heard, request)) {
                        ask();
                    }
                }
            }
        } catch (IOException left) {
            // The client went without a goodbye.
        }
    }

    private synchronized void ask() {
        asked = true;
        notifyAll();
    }

    private void send() {
        try {
            while (true) {
                Outlet.Client to;
                Reading reading;
                synchronized (this) {
                    reading = awaitDue();
                    if (closed) {
                        return;
                    }
                    to = mayAnswer() ? client : null;
                    asked = false;
                }
                boolean wentOut = to != null && write(to, reading);
                synchronized (this) {
                    pending.remove();
                    sent++;
                    taken += wentOut ? 1 : 0;
                    notifyAll();
                }
            }
        } catch (InterruptedException stopped) {
            Thread.currentThread().interrupt();
        }
    }

    /** Waits until the first pending reading is due. */
    private Reading awaitDue() throws InterruptedException {
        while (!closed) {
            if (pending.isEmpty() && standingIsSent()) {
                pending.add(job.standing());
            }
            long wait_ms = pending.isEmpty() ? 0 : untilDue_ms(pending.peek());
            if (!pending.isEmpty() && wait_ms <= 0 && (pace.isSteady() || mayAnswer())) {
                return pending.peek();
            }
            wait(Math.max(0, wait_ms));
        }
        return null;
    }

    private boolean standingIsSent() {
        return pace.isSteady() || profile.request().isPresent() && asked;
    }

    private boolean mayAnswer() {
        return client != null && (profile.request().isEmpty() || asked);
    }

    private long untilDue_ms(Reading reading) {
        long due_ms = Math.round(reading.time_s() / pace.times() * 1e3);
        return due_ms - (System.nanoTime() - startNanos) / 1_000_000;
    }

    private boolean write(Outlet.Client to, Reading reading) {
        try {
            to.out().write(encoder.encode(reading));
            to.out().flush();
            return true;
        } catch (IOException left) {
            drop(to);
            return false;
        }
    }

    private synchronized void drop(Outlet.Client guest) {
        if (guest != null) {
            try {
                guest.close();
            } catch (IOException gone) {
                // It is gone, which is what was wanted.
            }
        }
        if (client == guest) {
            client = null;
        }
    }

    private synchronized boolean isClosed() {
        return closed;
    }

    private static FrameEncoder encoder(IndicatorProfile profile, LengthUnit unit) {
        Scale scale = profile.scales().stream()
                .filter(s -> s.unit() == unit)
                .findFirst()
                .orElseThrow(() -> new IllegalArgumentException("profile '" + profile.name() + "' shows no "
                        + unit.symbol() + ", which the virtual indicator reads in"));
        return new FrameEncoder(profile, scale);
    }

    /** Twice, for a frame may have to be followed by another. */
    private static boolean isReadBack(byte[] frame, IndicatorProfile profile) {
        FrameDecoder decoder = new FrameDecoder(profile);
        decoder.feed(frame, 0, frame.length);
        decoder.feed(frame, 0, frame.length);
        return decoder.next() instanceof Decoded.Value;
    }

    private static boolean tellsTime(FrameEncoder encoder) {
        return !Arrays.equals(encoder.encode(new Reading(0, 0)), encoder.encode(new Reading(1, 0)));
    }
}

package sweepbook.acquisition.source;

import java.util.function.Consumer;
import sweepbook.acquisition.source.Event.FrameDropped;
import sweepbook.acquisition.source.Event.NothingDecodes;
import sweepbook.acquisition.source.Event.ReadingTaken;
import sweepbook.acquisition.source.Event.StatusShown;
import sweepbook.acquisition.trace.Reading;
import sweepbook.acquisition.wire.Decoded;
import sweepbook.acquisition.wire.FrameDecoder;
import sweepbook.acquisition.wire.IndicatorProfile;
import sweepbook.acquisition.wire.Scale;

/**
 * Bytes with their arrival in, events out: decodes, gives each reading its time, holds it to one unit. Used by one
 * thread.
 */
final class WireReader {
    /** So long bytes may come without a single frame before the person is told; joins and noise are over sooner. */
    private static final double PATIENCE_S = 3;

    /** A status that lasts is told again so often. */
    private static final double STATUS_AGAIN_S = 5;

    private final String name;
    private final Consumer<Event> events;
    private final FrameDecoder decoder;
    private final ByteTimes times;
    private final TraceTimes traceTimes = new TraceTimes();
    private final EvenTimes evenTimes = new EvenTimes();
    private final LoneJump jumps = new LoneJump();
    private final DropTally drops;
    private volatile Scale scale;
    private boolean scaleKnown;
    private double undecodedSince_s = Double.NaN;
    private double undecoded_s;
    private double now_s;
    private StatusShown told = new StatusShown(Double.NEGATIVE_INFINITY, null, "");

    WireReader(String name, IndicatorProfile profile, Consumer<Event> events) {
        this.name = name;
        this.events = events;
        this.decoder = new FrameDecoder(profile);
        this.times = new ByteTimes(profile.line().byteTime_s());
        this.drops = new DropTally(events);
        this.scale = profile.scales().get(0);
    }

    /** The unit and step of the readings; may be asked by any thread. */
    Scale scale() {
        return scale;
    }

    /** A time of the clock by which bytes arrive, on the time axis of the readings. */
    double onTrace_s(double clock_s) {
        return traceTimes.onTrace_s(clock_s);
    }

    /**
     * Hands on what the bytes bring; the last of them had arrived by then.
     *
     * @return whether a frame, good or bad, came to its end
     */
    boolean take(byte[] bytes, int length, double arrival_s) throws UnitChanged {
        decoder.feed(bytes, 0, length);
        times.arrived(length, arrival_s);
        now_s = arrival_s;
        boolean ended = decode();
        decoder.unfinished().ifPresent(excerpt -> undecoded(onTrace_s(arrival_s), excerpt));
        drops.settle(now_s);
        return ended;
    }

    /** Nothing came since the last bytes: what was held back until more came is told. */
    void idle(double idle_s) throws UnitChanged {
        now_s = idle_s;
        decoder.quiet();
        decode();
        drops.settle(now_s);
    }

    private boolean decode() throws UnitChanged {
        boolean ended = false;
        for (Decoded decoded = decoder.next(); decoded != Decoded.NeedMore.NEED_MORE; decoded = decoder.next()) {
            ended = true;
            if (decoded instanceof Decoded.Value value) {
                undecodedSince_s = Double.NaN;
                value(value);
            } else if (decoded instanceof Decoded.StatusWord word) {
                undecodedSince_s = Double.NaN;
                status(word);
            } else if (decoded instanceof Decoded.OtherChannel other) {
                undecoded(onTrace_s(times.sent_s(other.offset())), "frames of channel " + other.channel() + " only");
            } else {
                FrameDropped dropped = dropped((Decoded.Fault) decoded);
                evenTimes.missedOne();
                undecoded(dropped.time_s(), dropped.excerpt());
            }
            evenTimes.news().ifPresent(events);
        }
        return ended;
    }

    /** Gives up a frame of which the rest will not come. */
    void giveUp(String why) {
        decoder.giveUp(why).ifPresent(this::dropped);
    }

    /** An answer that was asked for did not come. */
    void unanswered(double givenUp_s, int requests) {
        now_s = givenUp_s;
        giveUp("the answer stopped half-way");
        drops.take(new FrameDropped(onTrace_s(now_s), "", "no answer to " + requests + " requests"), now_s);
    }

    /** The link was lost: what it brings later belongs to no frame and no cadence from before. */
    void startAnew(double time_s) {
        end("the link was lost within it");
        evenTimes.startAnew(onTrace_s(time_s));
        evenTimes.news().ifPresent(events);
    }

    /** The bytes end here, for now or for good. */
    void end(String why) {
        giveUp(why);
        drops.end();
    }

    private void undecoded(double time_s, String excerpt) {
        // What was left over before a pause is no sign of anything.
        if (Double.isNaN(undecodedSince_s) || time_s - undecoded_s > PATIENCE_S) {
            undecodedSince_s = time_s;
        }
        undecoded_s = time_s;
        if (time_s - undecodedSince_s >= PATIENCE_S) {
            undecodedSince_s = time_s;
            events.accept(new NothingDecodes(time_s, excerpt));
        }
    }

    private void value(Decoded.Value value) throws UnitChanged {
        holdToOneUnit(value.scale());
        // Asked for in any case: what is never asked for is never forgotten.
        double sent_s = times.sent_s(value.offset());
        double time_s = value.time_s().isPresent()
                ? traceTimes.ofDevice_s(value.time_s().getAsDouble(), sent_s)
                : traceTimes.ofClock_s(evenTimes.sent_s(sent_s, times.arrival_s(value.offset())));
        Reading reading = new Reading(time_s, value.reading_mm(), value.mark());
        events.accept(new ReadingTaken(reading));
        jumps.take(reading, scale.resolution_mm()).ifPresent(events);
    }

    private void status(Decoded.StatusWord word) {
        StatusShown shown = new StatusShown(onTrace_s(times.sent_s(word.offset())), word.status(), word.word());
        if (!word.word().equals(told.word()) || shown.time_s() - told.time_s() >= STATUS_AGAIN_S) {
            told = shown;
            events.accept(shown);
        }
    }

    private FrameDropped dropped(Decoded.Fault fault) {
        FrameDropped dropped = new FrameDropped(onTrace_s(times.sent_s(fault.offset())), fault.excerpt(), fault.why());
        drops.take(dropped, now_s);
        return dropped;
    }

    private void holdToOneUnit(Scale next) throws UnitChanged {
        if (scaleKnown && next.unit() != scale.unit()) {
            throw new UnitChanged(
                    name + ": the indicator changed from " + scale.unit().symbol() + " to "
                            + next.unit().symbol() + " in mid-trace; set it back and record again");
        }
        scale = next;
        scaleKnown = true;
    }
}

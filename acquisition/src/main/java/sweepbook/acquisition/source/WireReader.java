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

    /** Times are given to the microsecond, so that a trace is the same bits in memory and in a file. */
    private static final double TICKS_PER_S = 1e6;

    private final String name;
    private final FrameDecoder decoder;
    private final ByteTimes times;
    private final EvenTimes evenTimes = new EvenTimes();
    private final LoneJump jumps = new LoneJump();
    private volatile Scale scale;
    private boolean scaleKnown;
    private double last_s = Double.NEGATIVE_INFINITY;
    private double deviceShift_s;
    private double undecodedSince_s = Double.NaN;

    WireReader(String name, IndicatorProfile profile) {
        this.name = name;
        this.decoder = new FrameDecoder(profile);
        this.times = new ByteTimes(profile.line().byteTime_s());
        this.scale = profile.scales().get(0);
    }

    /** The unit and step of the readings; may be asked by any thread. */
    Scale scale() {
        return scale;
    }

    /** Hands on what the bytes bring; the last of them had arrived by then. */
    void take(byte[] bytes, int length, double arrival_s, Consumer<Event> events) throws UnitChanged {
        decoder.feed(bytes, 0, length);
        times.arrived(length, arrival_s);
        for (Decoded decoded = decoder.next(); decoded != Decoded.NeedMore.NEED_MORE; decoded = decoder.next()) {
            Event event = event(decoded);
            events.accept(event);
            if (event instanceof FrameDropped dropped) {
                evenTimes.missedOne();
                tellIfNothingDecodes(dropped, events);
            } else {
                undecodedSince_s = Double.NaN;
            }
            if (event instanceof ReadingTaken taken) {
                jumps.take(taken.reading(), scale.resolution_mm()).ifPresent(events);
            }
            evenTimes.news().ifPresent(events);
        }
    }

    /** Gives up a frame of which the rest will not come. */
    void giveUp(String why, Consumer<Event> events) {
        decoder.giveUp(why).map(this::dropped).ifPresent(events);
    }

    /** The link was lost: what it brings later belongs to no frame and no cadence from before. */
    void startAnew(double time_s, Consumer<Event> events) {
        giveUp("the link was lost within it", events);
        evenTimes.startAnew(time_s);
        evenTimes.news().ifPresent(events);
    }

    private void tellIfNothingDecodes(FrameDropped dropped, Consumer<Event> events) {
        if (Double.isNaN(undecodedSince_s)) {
            undecodedSince_s = dropped.time_s();
        } else if (dropped.time_s() - undecodedSince_s >= PATIENCE_S) {
            undecodedSince_s = dropped.time_s();
            events.accept(new NothingDecodes(dropped.time_s(), dropped.excerpt()));
        }
    }

    private Event event(Decoded decoded) throws UnitChanged {
        if (decoded instanceof Decoded.Value value) {
            holdToOneUnit(value.scale());
            // Asked for in any case: what is never asked for is never forgotten.
            double sent_s = times.sent_s(value.offset());
            double time_s = value.time_s().isPresent()
                    ? deviceTime_s(value.time_s().getAsDouble())
                    : Math.max(last_s, ticked(evenTimes.sent_s(sent_s, times.arrival_s(value.offset()))));
            last_s = time_s;
            return new ReadingTaken(new Reading(time_s, value.reading_mm(), value.mark()));
        }
        if (decoded instanceof Decoded.StatusWord word) {
            return new StatusShown(ticked(times.sent_s(word.offset())), word.status(), word.word());
        }
        return dropped((Decoded.Fault) decoded);
    }

    private FrameDropped dropped(Decoded.Fault fault) {
        return new FrameDropped(ticked(times.sent_s(fault.offset())), fault.excerpt(), fault.why());
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

    /** The device's stamp; one that has been started anew goes on where it was. */
    private double deviceTime_s(double stamp_s) {
        if (stamp_s + deviceShift_s < last_s) {
            deviceShift_s = last_s - stamp_s;
        }
        return deviceShift_s == 0 ? stamp_s : ticked(stamp_s + deviceShift_s);
    }

    private static double ticked(double time_s) {
        return Math.rint(time_s * TICKS_PER_S) / TICKS_PER_S;
    }
}

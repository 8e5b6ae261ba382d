package sweepbook.acquisition.source;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertInstanceOf;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.ByteArrayOutputStream;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Test;
import sweepbook.acquisition.source.Event.CadenceFound;
import sweepbook.acquisition.source.Event.CadenceLost;
import sweepbook.acquisition.source.Event.JumpAlone;
import sweepbook.acquisition.source.Event.ReadingTaken;
import sweepbook.acquisition.trace.Reading;
import sweepbook.acquisition.wire.FrameEncoder;
import sweepbook.acquisition.wire.IndicatorProfile;
import sweepbook.acquisition.wire.Profiles;

class WireReaderTest {
    private static final IndicatorProfile PROFILE = Profiles.bundled("packed-crc-stream");
    private static final FrameEncoder ENCODER = new FrameEncoder(PROFILE);
    private static final double FRAME_S = 7 * PROFILE.line().byteTime_s();

    private final List<Event> events = new ArrayList<>();
    private final WireReader reader = new WireReader("test", PROFILE, events::add);

    private List<Double> times_s() {
        return events.stream()
                .filter(ReadingTaken.class::isInstance)
                .map(event -> ((ReadingTaken) event).reading().time_s())
                .toList();
    }

    private <E extends Event> List<E> all(Class<E> kind) {
        return events.stream().filter(kind::isInstance).map(kind::cast).toList();
    }

    /** Frames sent then, which an adapter hands over when its timer runs out, all that it has at once. */
    private void throughAnAdapter(double[] sent_s, double timer_s, double phase_s) throws UnitChanged {
        ByteArrayOutputStream bunch = new ByteArrayOutputStream();
        double due_s = Double.NaN;
        for (double s : sent_s) {
            double out_s = (Math.ceil((s + FRAME_S - phase_s) / timer_s)) * timer_s + phase_s;
            if (bunch.size() > 0 && out_s > due_s) {
                reader.take(bunch.toByteArray(), bunch.size(), due_s);
                bunch.reset();
            }
            due_s = out_s;
            bunch.writeBytes(ENCODER.encode(new Reading(s, 0.25)));
        }
        reader.take(bunch.toByteArray(), bunch.size(), due_s);
    }

    private static double[] cadence_s(int count, double cycle_s) {
        double[] sent_s = new double[count];
        for (int i = 0; i < count; i++) {
            sent_s[i] = i * cycle_s;
        }
        return sent_s;
    }

    /** Standard deviation of what lies between given and true times, from the reading on that is named. */
    private double scatter_s(double[] sent_s, int from) {
        List<Double> given_s = times_s();
        double sum = 0;
        double squares = 0;
        for (int i = from; i < sent_s.length; i++) {
            double off_s = given_s.get(i) - sent_s[i];
            sum += off_s;
            squares += off_s * off_s;
        }
        int n = sent_s.length - from;
        return Math.sqrt(Math.max(0, squares / n - sum / n * (sum / n)));
    }

    /** Simulated truth: delays are even from 0 to the timer's time, so that as they arrive they scatter by timer / sqrt(12). */
    @Test
    void bunchesOfALatencyTimerAreSpreadBackToTheCadenceAndThatIsTold() throws UnitChanged {
        for (double cycle_s : new double[] {0.0021, 0.0047, 0.0113}) {
            WireReaderTest one = new WireReaderTest();
            double[] sent_s = cadence_s(1000, cycle_s);
            one.throughAnAdapter(sent_s, 0.016, 0.0031);
            double scatter_s = one.scatter_s(sent_s, 300);
            assertTrue(scatter_s < 0.1 * 0.016 / Math.sqrt(12), cycle_s + ": " + scatter_s);
            CadenceFound found = one.all(CadenceFound.class).get(0);
            assertEquals(cycle_s, found.cadence_s(), 0.02 * cycle_s);
            assertEquals(1, one.events.size() - sent_s.length);
            for (int i = 300; i < sent_s.length; i++) {
                assertTrue(one.times_s().get(i) <= sent_s[i] + 0.016 + 1e-6, "behind its arrival");
            }
        }
    }

    @Test
    void timesThatComeEvenlyAreLeftAsTheyAre() throws UnitChanged {
        Random random = new Random(1);
        for (int i = 0; i < 1000; i++) {
            byte[] frame = ENCODER.encode(new Reading(0, 0.25));
            double sent_s = Math.rint(1e6 * (i * 0.01 + 0.001 * random.nextDouble())) / 1e6;
            reader.take(frame, frame.length, sent_s + FRAME_S);
            assertEquals(sent_s, times_s().get(i), 1e-6);
        }
        assertEquals(1000, events.size());
    }

    @Test
    void aDeviceWithoutACadenceKeepsItsArrivals() throws UnitChanged {
        Random random = new Random(2);
        double[] sent_s = new double[2000];
        for (int i = 1; i < sent_s.length; i++) {
            sent_s[i] = sent_s[i - 1] + 0.02 * random.nextDouble();
        }
        throughAnAdapter(sent_s, 0.016, 0);
        assertEquals(List.of(), all(CadenceFound.class));
    }

    @Test
    void afterLostReadingsTheCadenceIsFoundAnew() throws UnitChanged {
        double[] sent_s = cadence_s(1000, 0.0047);
        for (int i = 500; i < sent_s.length; i++) {
            sent_s[i] += 40 * 0.0047;
        }
        throughAnAdapter(sent_s, 0.016, 0.0031);
        assertEquals(1, all(CadenceLost.class).size());
        assertEquals(2, all(CadenceFound.class).size());
        assertTrue(scatter_s(sent_s, 800) < 0.001);
        assertTrue(times_s().get(500) - times_s().get(499) > 39 * 0.0047, "the gap shows in the trace");
    }

    private void readings(double... mm) throws UnitChanged {
        for (int i = 0; i < mm.length; i++) {
            byte[] frame = ENCODER.encode(new Reading(0, mm[i]));
            reader.take(frame, frame.length, 0.02 * (i + 1));
        }
    }

    @Test
    void aJumpWithoutANeighbourIsFlaggedAndStaysInTheTrace() throws UnitChanged {
        readings(0.100, 0.101, 0.102, 4.096, 0.102, 0.103);
        assertEquals(6, all(ReadingTaken.class).size());
        JumpAlone jump = assertInstanceOf(JumpAlone.class, events.get(5));
        assertEquals(4.096, jump.reading_mm(), 1e-9);
        assertEquals(times_s().get(3), jump.time_s());
        assertEquals(1, all(JumpAlone.class).size());
    }

    @Test
    void aKnockOfSeveralReadingsAndAFastHandAreNoJumps() throws UnitChanged {
        readings(0.1, 0.1, 2.5, 2.4, 0.1, 0.1, 0.9, 1.8, 2.7, 3.6, 2.7, 1.8, 0.9, 0.1);
        assertEquals(List.of(), all(JumpAlone.class));
    }

    /** A device that was unplugged counts from zero again: the gap is in the trace, as long as it was. */
    @Test
    void aDeviceClockThatStartsAnewGoesOnAfterTheGap() throws UnitChanged {
        IndicatorProfile timed = Profiles.bundled("text-timed-stream");
        FrameEncoder encoder = new FrameEncoder(timed);
        WireReader itsReader = new WireReader("test", timed, events::add);
        for (double[] stampAndArrival : new double[][] {{100, 7}, {100.1, 7.1}, {0.5, 9.1}, {0.6, 9.2}}) {
            byte[] frame = encoder.encode(new Reading(stampAndArrival[0], 1));
            itsReader.take(frame, frame.length, stampAndArrival[1]);
        }
        assertEquals(List.of(100.0, 100.1, 102.1, 102.2), times_s());
        assertEquals(103, itsReader.onTrace_s(10), 0.01, "incidents are on the axis of the readings");
    }

    /** A plunger that hangs free for minutes must not fill the notes. */
    @Test
    void aStatusThatLastsIsToldNowAndThen() throws UnitChanged {
        IndicatorProfile plain = Profiles.bundled("text-mm-stream");
        WireReader itsReader = new WireReader("test", plain, events::add);
        byte[] word = "OVER\r\n".getBytes(StandardCharsets.US_ASCII);
        for (int i = 0; i < 240; i++) {
            itsReader.take(word, word.length, i * 0.05);
        }
        assertEquals(3, events.size());
    }

    @Test
    void otherChannelsAloneAreTold() throws UnitChanged {
        IndicatorProfile channels = Profiles.bundled("text-channels-stream");
        WireReader itsReader = new WireReader("test", channels, events::add);
        byte[] line = "2:+01.0000\n".getBytes(StandardCharsets.US_ASCII);
        for (int i = 0; i < 50; i++) {
            itsReader.take(line, line.length, i * 0.1);
        }
        assertEquals(
                "frames of channel 2 only",
                assertInstanceOf(Event.NothingDecodes.class, events.get(0)).excerpt());
        assertEquals(1, events.size());
    }
}

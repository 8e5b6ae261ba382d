package sweepbook.acquisition.link;

import java.io.ByteArrayOutputStream;
import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import sweepbook.acquisition.wire.LineSettings;
import sweepbook.acquisition.wire.LineSettings.Parity;

/** A serial line bit by bit: what a receiver makes of a sender with other settings. */
public final class Uart {
    /** Times at which the level of the line changes, in seconds; it rests high, so that odd ones raise it. */
    private final List<Double> edges_s = new ArrayList<>();

    private double end_s = 1e-3;
    private boolean high = true;

    private Uart() {}

    /** What the receiver hands over; a byte with a wrong stop bit or parity comes as zero (termios, INPCK without PARMRK). */
    public static byte[] heard(byte[] sent, LineSettings sender, LineSettings receiver, Random random) {
        Uart line = new Uart();
        for (byte b : sent) {
            line.send(b & 0xff, sender);
            // Devices pause between lines and now and then between bytes.
            double pause_bits = b == '\n' || b == '\r' ? 30 : random.nextInt(3);
            line.level(true, pause_bits / sender.speed_baud());
        }
        return line.receive(receiver);
    }

    private void send(int b, LineSettings settings) {
        double bit_s = 1.0 / settings.speed_baud();
        level(false, bit_s);
        int ones = 0;
        for (int i = 0; i < settings.dataBits(); i++) {
            boolean one = (b >> i & 1) == 1;
            ones += one ? 1 : 0;
            level(one, bit_s);
        }
        if (settings.parity() != Parity.NONE) {
            level(parity(ones, settings.parity()), bit_s);
        }
        level(true, bit_s * settings.stopBits().bits());
    }

    private static boolean parity(int ones, Parity parity) {
        return (ones % 2 == 1) == (parity == Parity.EVEN);
    }

    private void level(boolean to, double for_s) {
        if (to != high) {
            edges_s.add(end_s);
            high = to;
        }
        end_s += for_s;
    }

    private byte[] receive(LineSettings settings) {
        ByteArrayOutputStream bytes = new ByteArrayOutputStream();
        double bit_s = 1.0 / settings.speed_baud();
        int edge = 0;
        while (edge < edges_s.size()) {
            double start_s = edges_s.get(edge);
            double at_s = start_s + 1.5 * bit_s;
            int b = 0;
            int ones = 0;
            for (int i = 0; i < settings.dataBits(); i++, at_s += bit_s) {
                boolean one = isHigh(at_s);
                b |= one ? 1 << i : 0;
                ones += one ? 1 : 0;
            }
            boolean good = true;
            if (settings.parity() != Parity.NONE) {
                good = isHigh(at_s) == parity(ones, settings.parity());
                at_s += bit_s;
            }
            good &= isHigh(at_s);
            bytes.write(good ? b : 0);
            // The next start is a fall of the level, which is an even edge.
            while (edge < edges_s.size() && edges_s.get(edge) < at_s) {
                edge += 2;
            }
        }
        return bytes.toByteArray();
    }

    private boolean isHigh(double at_s) {
        int low = 0;
        int up = edges_s.size();
        while (low < up) {
            int middle = (low + up) / 2;
            if (edges_s.get(middle) <= at_s) {
                low = middle + 1;
            } else {
                up = middle;
            }
        }
        return low % 2 == 0;
    }
}

package sweepbook.acquisition.wire;

/** How a serial line is set; also tells how long a byte takes on it. */
public record LineSettings(int speed_baud, int dataBits, Parity parity, StopBits stopBits, boolean dtr, boolean rts) {
    public enum Parity {
        NONE,
        ODD,
        EVEN,
        MARK,
        SPACE
    }

    public enum StopBits {
        ONE(1),
        ONE_AND_A_HALF(1.5),
        TWO(2);

        private final double bits;

        StopBits(double bits) {
            this.bits = bits;
        }

        public double bits() {
            return bits;
        }
    }

    /** 8 data bits, no parity, one stop bit, both control lines raised. */
    public static LineSettings eightNoneOne(int speed_baud) {
        return new LineSettings(speed_baud, 8, Parity.NONE, StopBits.ONE, true, true);
    }

    /** The same speed and control lines, one stop bit. */
    public LineSettings with(int bits, Parity itsParity) {
        return new LineSettings(speed_baud, bits, itsParity, StopBits.ONE, dtr, rts);
    }

    /** How a byte is framed, as {@code 8N1}. */
    public String frame() {
        String stop = stopBits == StopBits.ONE_AND_A_HALF ? "1.5" : String.valueOf((int) stopBits.bits());
        return dataBits + parity.name().substring(0, 1) + stop;
    }

    /** From the start bit of a byte to the end of its stop bit. */
    public double byteTime_s() {
        return (1 + dataBits + (parity == Parity.NONE ? 0 : 1) + stopBits.bits()) / speed_baud;
    }
}

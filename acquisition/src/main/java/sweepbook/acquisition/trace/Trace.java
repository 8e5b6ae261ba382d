package sweepbook.acquisition.trace;

import java.util.Arrays;
import java.util.BitSet;

/**
 * Readings in time order, immutable: two primitive arrays, and beside them, where the source had them, witness marks
 * and angles.
 *
 * <p>Lengths are in millimetres and times in seconds whatever the indicator shows; {@link #unit()} remembers what it
 * shows. Times never descend.
 */
public final class Trace {
    /** Seconds since 1970 are within it by far; what counts blocks of time is not to run over. */
    private static final double LATEST_S = 1e12;
    /** A kilometre: beyond what any indicator could show. */
    private static final double FARTHEST_MM = 1e6;

    private final LengthUnit unit;
    private final double resolution_mm;
    private final double lastDigit_mm;
    private final double[] time_s;
    private final double[] reading_mm;
    private final BitSet marks;
    private final double[] angle_deg;

    private Trace(
            LengthUnit unit,
            double resolution_mm,
            double lastDigit_mm,
            double[] time_s,
            double[] reading_mm,
            BitSet marks,
            double[] angle_deg) {
        this.unit = unit;
        this.resolution_mm = resolution_mm;
        this.lastDigit_mm = lastDigit_mm;
        this.time_s = time_s;
        this.reading_mm = reading_mm;
        this.marks = marks;
        this.angle_deg = angle_deg;
    }

    /** Whether an indicator can read that; no number of a report is then longer than paper is wide. */
    static boolean isReading(double reading_mm) {
        return Math.abs(reading_mm) <= FARTHEST_MM;
    }

    /** Whether that can be a time in a trace. */
    static boolean isTime(double time_s) {
        return Math.abs(time_s) <= LATEST_S;
    }

    /** A trace of the given readings, which are copied; resolution NaN where it is not known. */
    public static Trace of(LengthUnit unit, double resolution_mm, double[] time_s, double[] reading_mm) {
        Builder builder = new Builder(unit, resolution_mm);
        for (int i = 0; i < time_s.length; i++) {
            builder.add(time_s[i], reading_mm[i]);
        }
        return builder.build();
    }

    public int size() {
        return time_s.length;
    }

    public boolean isEmpty() {
        return time_s.length == 0;
    }

    /** The unit in which the indicator shows its readings. */
    public LengthUnit unit() {
        return unit;
    }

    /** The step of the indicator's display in millimetres, NaN where the source does not say. */
    public double resolution_mm() {
        return resolution_mm;
    }

    /** The last digit to which its readings were written, in millimetres; NaN where they never were text. */
    public double lastDigit_mm() {
        return lastDigit_mm;
    }

    public double time_s(int i) {
        return time_s[i];
    }

    public double reading_mm(int i) {
        return reading_mm[i];
    }

    public Reading reading(int i) {
        return new Reading(time_s[i], reading_mm[i], marks.get(i));
    }

    /** Whether a witness mark passes at reading i. */
    public boolean mark(int i) {
        return marks.get(i);
    }

    public boolean hasMarks() {
        return !marks.isEmpty();
    }

    public boolean hasAngles() {
        return angle_deg.length > 0;
    }

    /** The angle at reading i in degrees; only where {@link #hasAngles()}. */
    public double angle_deg(int i) {
        return angle_deg[i];
    }

    /** A fresh copy of the times, in seconds. */
    public double[] times_s() {
        return time_s.clone();
    }

    /** A fresh copy of the readings, in millimetres. */
    public double[] readings_mm() {
        return reading_mm.clone();
    }

    /** Collects readings; used by one thread. */
    public static final class Builder {
        private final LengthUnit unit;
        private final double resolution_mm;
        private final BitSet marks = new BitSet();
        private double lastDigit_mm = Double.NaN;
        private double[] time_s = new double[1024];
        private double[] reading_mm = new double[1024];
        private double[] angle_deg = {};
        private int size;

        public Builder(LengthUnit unit, double resolution_mm) {
            this.unit = unit;
            this.resolution_mm = resolution_mm;
        }

        public Builder add(double atTime_s, double value_mm) {
            if (!isTime(atTime_s) || !isReading(value_mm)) {
                throw new IllegalArgumentException(
                        "reading " + (size + 1) + " is out of all bounds: " + atTime_s + " s, " + value_mm + " mm");
            }
            if (size > 0 && atTime_s < time_s[size - 1]) {
                throw new IllegalArgumentException("reading " + (size + 1) + " at " + atTime_s
                        + " s comes before the one ahead of it at " + time_s[size - 1] + " s");
            }
            if (size == time_s.length) {
                int capacity = size + (size >> 1);
                time_s = Arrays.copyOf(time_s, capacity);
                reading_mm = Arrays.copyOf(reading_mm, capacity);
            }
            time_s[size] = atTime_s;
            reading_mm[size] = value_mm;
            size++;
            return this;
        }

        public Builder add(Reading reading) {
            marks.set(size, reading.mark());
            return add(reading.time_s(), reading.reading_mm());
        }

        /** Adds a reading taken at a known angle; either every reading of a trace has one or none. */
        public Builder addAtAngle(Reading reading, double atAngle_deg) {
            if (angle_deg.length <= size) {
                angle_deg = Arrays.copyOf(angle_deg, Math.max(1024, size + (size >> 1)));
            }
            angle_deg[size] = atAngle_deg;
            return add(reading);
        }

        /** The readings were written to this digit, in millimetres. */
        Builder writtenTo(double digit_mm) {
            lastDigit_mm = digit_mm;
            return this;
        }

        public int size() {
            return size;
        }

        /** The trace of all readings so far; the builder can go on. */
        public Trace build() {
            return new Trace(
                    unit,
                    resolution_mm,
                    lastDigit_mm,
                    Arrays.copyOf(time_s, size),
                    Arrays.copyOf(reading_mm, size),
                    (BitSet) marks.clone(),
                    angle_deg.length == 0 ? angle_deg : Arrays.copyOf(angle_deg, size));
        }
    }
}

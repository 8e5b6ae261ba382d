package sweepbook.analysis.sweep;

import org.hipparchus.util.FastMath;

/** How a stand moves all crests of a sweep, but for by how much. */
sealed interface Trend {
    /** The part of the amount by which the crest was off at a time. */
    double at(double time_s);

    /** Nothing moves. */
    record None() implements Trend {
        @Override
        public double at(double time_s) {
            return 0;
        }
    }

    /** So much a second, from where it was at a time. */
    record Drift(double since_s) implements Trend {
        @Override
        public double at(double time_s) {
            return time_s - since_s;
        }
    }

    /**
     * It was moved, and comes to rest as the oil between its faces or a clamp gives: what is left falls by a factor of e in every
     * so many seconds.
     */
    record Settling(double since_s, double within_s) implements Trend {
        @Override
        public double at(double time_s) {
            return FastMath.exp((since_s - time_s) / within_s);
        }
    }
}

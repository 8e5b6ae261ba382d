package sweepbook.analysis.sweep;

/**
 * What a reading says by its distance from the true value, as a table: the logarithm of its density in cubic pieces between even
 * distances, so that it, its slope and its curvature belong together.
 */
final class SaidCurve {
    private static final int COEFFICIENTS = 6;

    private final int pieces;
    private final double piecesPer_mm;
    private final double[] coefficients;

    /**
     * @param reach_mm the last distance; the first is zero
     */
    SaidCurve(double reach_mm, Rounding.Said[] nodes) {
        pieces = nodes.length - 1;
        piecesPer_mm = pieces / reach_mm;
        coefficients = new double[COEFFICIENTS * nodes.length];
        double step_mm = reach_mm / pieces;
        for (int i = 0; i < pieces; i++) {
            double rise = nodes[i + 1].log() - nodes[i].log();
            // The score is the slope by the true value, and the distance counts against it.
            double slope = -step_mm * nodes[i].score();
            double nextSlope = -step_mm * nodes[i + 1].score();
            put(
                    i,
                    nodes[i].log(),
                    slope,
                    3 * rise - 2 * slope - nextSlope,
                    slope + nextSlope - 2 * rise,
                    nodes[i].information(),
                    nodes[i + 1].information() - nodes[i].information());
        }
        put(pieces, nodes[pieces].log(), -step_mm * nodes[pieces].score(), 0, 0, nodes[pieces].information(), 0);
    }

    private void put(int piece, double... values) {
        for (int i = 0; i < COEFFICIENTS; i++) {
            coefficients[COEFFICIENTS * piece + i] = values[i];
        }
    }

    /** What a reading says that is d above the true value; beyond the last distance the same as there. */
    Rounding.Said said(double d_mm) {
        double x = Math.abs(d_mm) * piecesPer_mm;
        int piece = x < pieces ? (int) x : pieces;
        double t = x < pieces ? x - piece : 0;
        int c = COEFFICIENTS * piece;
        double first = coefficients[c + 1];
        double second = coefficients[c + 2];
        double third = coefficients[c + 3];
        double slope = -piecesPer_mm * (first + t * (2 * second + t * 3 * third));
        return new Rounding.Said(
                coefficients[c] + t * (first + t * (second + t * third)),
                Math.copySign(slope, d_mm),
                coefficients[c + 4] + t * coefficients[c + 5]);
    }
}

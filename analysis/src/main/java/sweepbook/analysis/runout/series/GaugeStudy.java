package sweepbook.analysis.runout.series;

import org.hipparchus.distribution.continuous.FDistribution;

/**
 * How much of the spread of measured values is the measuring's: pieces, each measured several times by each person,
 * analysed as a two-way layout with interaction (analysis of variance, random effects). The interaction is pooled with
 * the repeatability where it does not stand out of it.
 *
 * @param piece sum of squares and degrees of freedom between pieces
 * @param person between persons
 * @param interaction persons that differ on some pieces and not on others
 * @param repeat within one person's repeats of one piece
 * @param interactionStands whether the interaction stands out at 5 %, and so is kept apart
 * @param repeatability_mm standard deviation of one person's repeats
 * @param reproducibility_mm standard deviation between persons, interaction in it
 * @param betweenPieces_mm standard deviation between pieces
 */
public record GaugeStudy(
        Source piece,
        Source person,
        Source interaction,
        Source repeat,
        boolean interactionStands,
        double repeatability_mm,
        double reproducibility_mm,
        double betweenPieces_mm) {
    private static final double SIGNIFICANCE = 0.05;
    private static final double ROUNDING = 1e-9;

    /** A line of the analysis of variance. */
    public record Source(double sumOfSquares, int degreesOfFreedom) {
        public double meanSquare() {
            return sumOfSquares / degreesOfFreedom;
        }
    }

    /** @param value_mm value_mm[piece][person][repeat], the same number of repeats throughout, at least two of each */
    public static GaugeStudy of(double[][][] value_mm) {
        int pieces = value_mm.length;
        int persons = value_mm[0].length;
        int repeats = value_mm[0][0].length;
        if (pieces < 2 || persons < 2 || repeats < 2) {
            throw new IllegalArgumentException("a gauge study needs two pieces, persons and repeats or more, not "
                    + pieces + ", " + persons + " and " + repeats);
        }
        double grand = 0;
        double[] pieceMean = new double[pieces];
        double[] personMean = new double[persons];
        double[][] cellMean = new double[pieces][persons];
        for (int i = 0; i < pieces; i++) {
            for (int j = 0; j < persons; j++) {
                for (double v : value_mm[i][j]) {
                    cellMean[i][j] += v / repeats;
                }
                pieceMean[i] += cellMean[i][j] / persons;
                personMean[j] += cellMean[i][j] / pieces;
                grand += cellMean[i][j] / (pieces * persons);
            }
        }
        double ofPiece = 0;
        double ofPerson = 0;
        double ofBoth = 0;
        double within = 0;
        for (int i = 0; i < pieces; i++) {
            ofPiece += persons * repeats * square(pieceMean[i] - grand);
            for (int j = 0; j < persons; j++) {
                ofBoth += repeats * square(cellMean[i][j] - pieceMean[i] - personMean[j] + grand);
                for (double v : value_mm[i][j]) {
                    within += square(v - cellMean[i][j]);
                }
            }
        }
        for (int j = 0; j < persons; j++) {
            ofPerson += pieces * repeats * square(personMean[j] - grand);
        }
        return of(
                new Source(ofPiece, pieces - 1),
                new Source(ofPerson, persons - 1),
                new Source(ofBoth, (pieces - 1) * (persons - 1)),
                new Source(within, pieces * persons * (repeats - 1)),
                pieces,
                persons,
                repeats);
    }

    private static GaugeStudy of(
            Source piece, Source person, Source both, Source within, int pieces, int persons, int repeats) {
        double f = both.meanSquare() / within.meanSquare();
        boolean stands =
                1 - new FDistribution(both.degreesOfFreedom(), within.degreesOfFreedom()).cumulativeProbability(f)
                        < SIGNIFICANCE;
        Source pooled = new Source(
                both.sumOfSquares() + within.sumOfSquares(), both.degreesOfFreedom() + within.degreesOfFreedom());
        double error = stands ? within.meanSquare() : pooled.meanSquare();
        double beside = stands ? both.meanSquare() : error;
        double interaction = stands ? excess(both, error) / repeats : 0;
        double byPerson = excess(person, beside) / (pieces * repeats);
        double byPiece = excess(piece, beside) / (persons * repeats);
        return new GaugeStudy(
                piece,
                person,
                both,
                within,
                stands,
                Math.sqrt(error),
                Math.sqrt(byPerson + interaction),
                Math.sqrt(byPiece));
    }

    /** By how much a mean square is above another; what the rounding of the sums leaves is nothing. */
    private static double excess(Source source, double meanSquare) {
        double excess = source.meanSquare() - meanSquare;
        return excess > ROUNDING * source.meanSquare() ? excess : 0;
    }

    private static double square(double v) {
        return v * v;
    }

    /** Repeatability and reproducibility together. */
    public double measuring_mm() {
        return Math.hypot(repeatability_mm, reproducibility_mm);
    }

    /** Measuring and pieces together. */
    public double total_mm() {
        return Math.hypot(measuring_mm(), betweenPieces_mm);
    }

    /** Into how many classes the measuring can sort such pieces: sqrt 2 times their spread over its own, cut down. */
    public int distinctClasses() {
        return (int) Math.floor(Math.sqrt(2) * betweenPieces_mm / measuring_mm());
    }
}

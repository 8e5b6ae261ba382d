package sweepbook.analysis.sweep;

import java.util.List;
import org.hipparchus.util.FastMath;

/**
 * The weighted course of the crests of some passes, over time: a level, and an amount of a trend.
 *
 * @param level_mm the crest, where the trend is 0
 * @param weight of the level where the amount is known, per square mm
 * @param levelStdU_mm standard uncertainty of the level where it is not
 * @param amount of the trend, in its unit; 0 where there is none
 * @param amountStdU its standard uncertainty
 * @param amountByLevel by how much the likeliest amount changes with the level
 * @param amountStdUAtLevel standard uncertainty of the amount where the level is known
 */
record CrestLine(
        Trend trend,
        double level_mm,
        double weight,
        double levelStdU_mm,
        double amount,
        double amountStdU,
        double amountByLevel,
        double amountStdUAtLevel) {
    /** Of a determinant, that rounding leaves where the passes tell no amount. */
    private static final double NOTHING = 1e-12;

    /** @param known information on the amount, which is expected to be 0: one over its variance */
    static CrestLine through(List<PassCrest> passes, Trend trend, double known) {
        double s0 = 0;
        double s1 = 0;
        double s2 = known;
        double y0 = 0;
        double y1 = 0;
        for (PassCrest pass : passes) {
            double w = 1 / pass.variance_mm2();
            double t = trend.at(pass.time_s());
            s0 += w;
            s1 += w * t;
            s2 += w * t * t;
            y0 += w * pass.crest_mm();
            y1 += w * t * pass.crest_mm();
        }
        double determinant = s0 * s2 - s1 * s1;
        if (determinant <= NOTHING * s0 * s2) {
            return new CrestLine(trend, y0 / s0, s0, FastMath.sqrt(1 / s0), 0, 0, 0, 0);
        }
        double amount = (s0 * y1 - s1 * y0) / determinant;
        return new CrestLine(
                trend,
                (y0 - amount * s1) / s0,
                s0,
                FastMath.sqrt(s2 / determinant),
                amount,
                FastMath.sqrt(s0 / determinant),
                -s1 / s2,
                FastMath.sqrt(1 / s2));
    }

    /** How far the crest was moved at a time. */
    double moved_mm(double time_s) {
        return amount * trend.at(time_s);
    }

    /** How far a pass lies above the line. */
    double off_mm(PassCrest pass) {
        return pass.crest_mm() - moved_mm(pass.time_s()) - level_mm;
    }

    /** The likeliest amount where the crest is known. */
    double amountAt(double crest_mm) {
        return amount + amountByLevel * (crest_mm - level_mm);
    }
}

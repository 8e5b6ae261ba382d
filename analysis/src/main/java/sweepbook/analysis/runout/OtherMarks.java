package sweepbook.analysis.runout;

import java.util.ArrayList;
import java.util.List;
import org.hipparchus.linear.Array2DRowRealMatrix;
import org.hipparchus.linear.ArrayRealVector;
import org.hipparchus.linear.RealMatrix;
import org.hipparchus.linear.RealVector;
import sweepbook.analysis.runout.fit.Profile;
import sweepbook.analysis.runout.fit.TurnFit;

/**
 * What the part would be had a mark been told early or late. Where the readings do not decide between that and the marks
 * as told, the figures hold both: each other profile counts by how probable it makes the readings, but no more than the
 * one as told, for such a mark is seldom.
 */
final class OtherMarks {
    private record Other(TurnFit fit, double weight) {}

    private final TurnFit asTold;
    private final List<Other> others = new ArrayList<>();

    OtherMarks(TurnFit asTold) {
        this.asTold = asTold;
    }

    /** @param odds log odds by which the readings speak for the marks as told and against these */
    void add(TurnFit fit, double odds) {
        others.add(new Other(fit, Math.exp(-Math.max(0, odds))));
    }

    /** How far the undulations of a fit may be off for that, in mm^2; mean and drift stay as they are. */
    RealMatrix covariance(TurnFit of) {
        int p = of.covariance().getRowDimension();
        RealMatrix sum = new Array2DRowRealMatrix(p, p);
        double weights = 1;
        for (Other other : others) {
            RealVector off = off(of, other.fit().profile());
            sum = sum.add(off.outerProduct(off).scalarMultiply(other.weight()));
            weights += other.weight();
        }
        return sum.scalarMultiply(1 / weights);
    }

    private RealVector off(TurnFit of, Profile other) {
        Profile told = asTold.profile();
        RealVector off = new ArrayRealVector(of.covariance().getRowDimension());
        int[] upr = of.profile().upr();
        for (int j = 0; j < upr.length; j++) {
            off.setEntry(of.column(j), other.cosOf_mm(upr[j]) - told.cosOf_mm(upr[j]));
            off.setEntry(of.column(j) + 1, other.sinOf_mm(upr[j]) - told.sinOf_mm(upr[j]));
        }
        return off;
    }
}

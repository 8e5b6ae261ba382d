package sweepbook.analysis.runout.separation;

import java.util.List;
import sweepbook.analysis.runout.fit.Profile;

/**
 * Separation by reversal: the second run has the part and the indicator both turned by 180 degrees on the spindle, so
 * that the same spot of the part passes the contact at the same angle while the spindle's motion changes its sign. Exact
 * at every angle; both runs must count the angle from the same mark of the part.
 *
 * <p>R. R. Donaldson, A simple method for separating spindle error from test ball roundness error, Annals of the CIRP
 * 21(1) (1972) 125.
 */
public final class FormReversal {
    private FormReversal() {}

    public static Separated of(Profile run, Profile reversed) {
        List<Profile> runs = List.of(run, reversed);
        return new Separated(
                Combination.of(runs, new double[] {0.5, 0.5}, new double[2]),
                Combination.of(runs, new double[] {0.5, -0.5}, new double[2]));
    }
}

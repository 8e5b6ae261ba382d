package sweepbook.analysis.uncertainty;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.Collections;
import java.util.List;
import org.hipparchus.linear.RealMatrix;
import org.hipparchus.stat.correlation.Covariance;
import org.junit.jupiter.api.Test;
import sweepbook.analysis.published.Published;

class PropagationTest {
    /** Published: three results from three correlated means. */
    @Test
    void resistanceAndReactance_gumH2() {
        try (Published gum = Published.source("gum-h2.txt")) {
            double[][] columns = {gum.data("V_V"), gum.data("I_mA"), gum.data("phi_rad")};
            int n = columns[0].length;
            double[][] rows = new double[n][3];
            double[] means = new double[3];
            for (int j = 0; j < 3; j++) {
                for (int i = 0; i < n; i++) {
                    rows[i][j] = columns[j][i];
                    means[j] += columns[j][i] / n;
                }
            }
            RealMatrix covariance = new Covariance(rows).getCovarianceMatrix().scalarMultiply(1.0 / n);
            gum.check("means", means);
            Propagation same = Propagation.of(x -> x, means, covariance);
            gum.check("u_of_means", same.stdU(0), same.stdU(1), same.stdU(2));
            gum.check("r_V_I", same.correlation(0, 1));
            gum.check("r_V_phi", same.correlation(0, 2));
            gum.check("r_I_phi", same.correlation(1, 2));

            Propagation result = Propagation.of(
                    x -> {
                        double z = x[0] / (x[1] * 1e-3);
                        return new double[] {z * Math.cos(x[2]), z * Math.sin(x[2]), z};
                    },
                    means,
                    covariance);
            gum.check("R_X_Z_ohm", result.values());
            gum.check("u_R_X_Z_ohm", result.stdU(0), result.stdU(1), result.stdU(2));
            gum.check("r_R_X", result.correlation(0, 1));
            gum.check("r_R_Z", result.correlation(0, 2));
            gum.check("r_X_Z", result.correlation(1, 2));
        }
    }

    /** Law: drawn distributions have the standard deviation that the budget says; sums of them too. */
    @Test
    void drawingABudgetGivesItsStandardUncertainty() {
        double inf = Double.POSITIVE_INFINITY;
        for (Distribution distribution : Distribution.values()) {
            Budget one = new Budget(7, List.of(new BudgetLine("", distribution, 0.3, -2, inf, "")));
            MonteCarlo drawn = MonteCarlo.of(one, 200_000, 5);
            assertEquals(0.6, drawn.stdU(), 0.006, distribution + ", seed 5");
            assertEquals(7, drawn.mean(), 0.006, distribution + ", seed 5");
        }
        Budget many = new Budget(
                0,
                List.of(
                        new BudgetLine("", Distribution.NORMAL, 1, 1, inf, ""),
                        new BudgetLine("", Distribution.TRIANGULAR, 1, 1, inf, ""),
                        new BudgetLine("", Distribution.RECTANGULAR, 1, 1, inf, "")));
        MonteCarlo drawn = MonteCarlo.of(many, 400_000, 6);
        assertEquals(many.combined().u95(), (drawn.upper(0.95) - drawn.lower(0.95)) / 2, 0.05, "seed 6");
    }

    /** Law: a scatter known from five values is drawn from the t-distribution of four degrees of freedom. */
    @Test
    void fewDegreesOfFreedomAreDrawnWide() {
        Budget few = new Budget(0, List.of(new BudgetLine("", Distribution.NORMAL, 1, 1, 4, "")));
        MonteCarlo drawn = MonteCarlo.of(few, 400_000, 7);
        assertEquals(few.combined().u95(), drawn.upper(0.95), 0.04, "seed 7");
        assertEquals(-few.combined().u95(), drawn.lower(0.95), 0.04, "seed 7");
    }

    /** Published: where a normal distribution is the wrong one, drawing knows it. */
    @Test
    void fourRectangularInputs_jcgm101() {
        try (Published jcgm = Published.source("jcgm-101.txt")) {
            int inputs = (int) jcgm.datum("inputs");
            BudgetLine one = new BudgetLine("input", Distribution.RECTANGULAR, 1, 1, Double.POSITIVE_INFINITY, "");
            Budget sum = new Budget(0, Collections.nCopies(inputs, one));
            MonteCarlo drawn = MonteCarlo.of(sum, 1_000_000, 1);
            jcgm.check("u", drawn.stdU());
            jcgm.check("upper_95_by_drawing", drawn.upper(0.95));
            jcgm.check("lower_95_by_drawing", drawn.lower(0.95));
            jcgm.check("upper_95_by_the_normal_theory", sum.combined().u95());
        }
    }
}

package sweepbook.analysis.uncertainty;

import java.util.ArrayList;
import java.util.List;
import org.hipparchus.distribution.continuous.NormalDistribution;
import org.junit.jupiter.api.Test;
import sweepbook.analysis.offset.Temperature;
import sweepbook.analysis.published.Published;

/** Published: the worked examples of JCGM 100:2008 that concern a budget. */
class GumTest {
    private static final double INF = Double.POSITIVE_INFINITY;

    private static BudgetLine line(double u, double sensitivity, double nu) {
        return new BudgetLine("source", Distribution.NORMAL, u, sensitivity, nu, "");
    }

    @Test
    void endGauge_h1() {
        try (Published gum = Published.source("gum-h1.txt")) {
            List<BudgetLine> parts = new ArrayList<>();
            for (int i = 0; i < 3; i++) {
                parts.add(line(gum.data("u_d_parts_nm")[i], 1, gum.data("nu_d_parts")[i]));
            }
            Estimate d = new Budget(gum.datum("d_nm"), parts).combined();
            gum.check("u_d_combined_nm", d.stdU());
            gum.check("nu_d_combined", d.degreesOfFreedom());

            double ls_mm = gum.datum("ls_nm") * 1e-6;
            Temperature temperature = new Temperature(
                    new Estimate(gum.datum("theta_K"), gum.datum("u_theta_K"), INF),
                    new Estimate(gum.datum("alpha_s_per_K"), gum.datum("u_alpha_s_per_K"), INF),
                    new Estimate(0, gum.datum("u_dalpha_per_K"), gum.datum("nu_dalpha")),
                    new Estimate(0, gum.datum("u_dtheta_K"), gum.datum("nu_dtheta")));
            List<BudgetLine> lines = new ArrayList<>(temperature.lines(ls_mm));
            gum.check("contribution_dalpha_nm", lines.get(2).contribution() * 1e6);
            gum.check("contribution_dtheta_nm", lines.get(3).contribution() * 1e6);
            lines.add(line(gum.datum("u_ls_nm") * 1e-6, 1, gum.datum("nu_ls")));
            lines.add(line(gum.datum("u_d_nm") * 1e-6, 1, gum.datum("nu_d")));
            Estimate l = new Budget(temperature.correct_mm(ls_mm) + gum.datum("d_nm") * 1e-6, lines).combined();
            gum.check("l_mm", l.value());
            gum.check("u_c_nm", l.stdU() * 1e6);
            gum.check("nu_eff", l.degreesOfFreedom());
            double t99 = Estimate.tFactor(0.99, Math.floor(l.degreesOfFreedom()));
            gum.check("t99_of_16", t99);
            gum.check("U99_nm", t99 * l.stdU() * 1e6);

            double alphaTheta = gum.datum("ls_nm") * gum.datum("u_dalpha_per_K") * gum.datum("u_theta_K");
            double scaleTheta = gum.datum("ls_nm") * gum.datum("u_alpha_s_per_K") * gum.datum("u_dtheta_K");
            gum.check("second_order_nm", alphaTheta, scaleTheta);
            gum.check("u_with_second_order_nm", Math.hypot(l.stdU() * 1e6, Math.hypot(alphaTheta, scaleTheta)));
        }
    }

    @Test
    void welchAndSatterthwaite_g4() {
        try (Published gum = Published.source("gum-g4.txt")) {
            List<BudgetLine> lines = new ArrayList<>();
            for (int i = 0; i < 3; i++) {
                lines.add(line(gum.data("u_percent")[i], 1, gum.data("n")[i] - 1));
            }
            Estimate y = new Budget(100, lines).combined();
            gum.check("u_c_percent", y.stdU());
            gum.check("nu_eff", y.degreesOfFreedom());
            gum.check("t95_of_19", Estimate.tFactor(0.95, 19));
            gum.check("U95_percent", y.u95());
        }
    }

    @Test
    void tFactors_tableG2() {
        try (Published gum = Published.source("gum-g2.txt")) {
            double[] percent = gum.data("percent");
            NormalDistribution normal = new NormalDistribution();
            for (String nu : gum.expectedNames("")) {
                double[] factors = new double[percent.length];
                for (int i = 0; i < percent.length; i++) {
                    double p = percent[i] / 100;
                    if (i == 0 || i == 3 || i == 5) {
                        double k = i == 0 ? 1 : i == 3 ? 2 : 3;
                        p = normal.cumulativeProbability(k) - normal.cumulativeProbability(-k);
                    }
                    factors[i] = Estimate.tFactor(p, Double.parseDouble(nu));
                }
                gum.check(nu, factors);
            }
        }
    }

    @Test
    void distributions() {
        try (Published gum = Published.source("gum-distributions.txt")) {
            gum.check("rectangular", Distribution.RECTANGULAR.stdU(1));
            gum.check("triangular", Distribution.TRIANGULAR.stdU(1));
            gum.check("display_step_1", Distribution.RECTANGULAR.stdU(0.5));
            gum.check("hysteresis_1", Distribution.RECTANGULAR.stdU(0.5));
            gum.check("arcsine_half_kelvin", Distribution.ARCSINE.stdU(0.5));
        }
    }
}

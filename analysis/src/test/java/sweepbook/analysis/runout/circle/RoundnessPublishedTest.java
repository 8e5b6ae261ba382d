package sweepbook.analysis.runout.circle;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.Arrays;
import org.junit.jupiter.api.Test;
import sweepbook.analysis.published.Published;

class RoundnessPublishedTest {
    /** Published: the much used 24 points, and what follows from them. */
    @Test
    void twentyFourPointsOfACircle() {
        try (Published set = Published.source("roundness-24-points.txt")) {
            double[] x = set.data("x");
            double[] y = set.data("y");
            Roundness zone = CircleFit.ofPoints(ReferenceCircle.MINIMUM_ZONE, x, y);
            set.check("minimum_zone", zone.outOfRoundness_mm());
            set.check("minimum_zone_centre", zone.x_mm(), zone.y_mm());
            set.check("minimum_zone_mean_radius", zone.radius_mm());
            set.check(
                    "minimum_zone_touching",
                    Arrays.stream(zone.touching())
                            .sorted()
                            .mapToDouble(i -> i + 1)
                            .toArray());
            Roundness least = CircleFit.ofPoints(ReferenceCircle.LEAST_SQUARES, x, y);
            set.check("least_squares", least.outOfRoundness_mm());
            set.check("least_squares_more", least.outOfRoundness_mm());
            set.check("least_squares_centre", least.x_mm(), least.y_mm());
            set.check("least_squares_radius", least.radius_mm());
            Roundness outside = CircleFit.ofPoints(ReferenceCircle.MINIMUM_CIRCUMSCRIBED, x, y);
            set.check("circumscribed", outside.outOfRoundness_mm());
            set.check("circumscribed_centre", outside.x_mm(), outside.y_mm());
            set.check("circumscribed_radius", outside.radius_mm());
            Roundness inside = CircleFit.ofPoints(ReferenceCircle.MAXIMUM_INSCRIBED, x, y);
            set.check("inscribed", inside.outOfRoundness_mm());
            set.check("inscribed_centre", inside.x_mm(), inside.y_mm());
            set.check("inscribed_radius", inside.radius_mm());
            double[] nominal = new double[24];
            double[] angle = new double[24];
            double[] radius = new double[24];
            for (int i = 0; i < 24; i++) {
                nominal[i] = Math.toRadians(35 + 15 * i);
                angle[i] = Math.atan2(y[i] - 97, x[i] - 83);
                radius[i] = Math.hypot(x[i] - 83, y[i] - 97);
            }
            Roundness iso = CircleFit.ofRunout(ReferenceCircle.LEAST_SQUARES, nominal, radius);
            set.check("iso_mean", iso.radius_mm());
            set.check(
                    "runout_about_83_97",
                    Arrays.stream(radius).max().orElseThrow()
                            - Arrays.stream(radius).min().orElseThrow());
            Roundness harmonic = CircleFit.ofRunout(ReferenceCircle.LEAST_SQUARES, angle, radius);
            set.check(
                    "first_harmonic_amplitude_angle",
                    Math.hypot(harmonic.x_mm(), harmonic.y_mm()),
                    Math.toDegrees(Math.atan2(harmonic.y_mm(), harmonic.x_mm())));
            set.check("first_harmonic_left_range", harmonic.outOfRoundness_mm());
        }
    }

    /** Law: a circle is round about every reference, wherever it lies. */
    @Test
    void aCircleIsRound() {
        double[] x = new double[37];
        double[] y = new double[37];
        for (int i = 0; i < x.length; i++) {
            x[i] = 3 + 20 * Math.cos(0.17 * i);
            y[i] = -5 + 20 * Math.sin(0.17 * i);
        }
        for (ReferenceCircle circle : ReferenceCircle.values()) {
            Roundness found = CircleFit.ofPoints(circle, x, y);
            assertEquals(0, found.outOfRoundness_mm(), 1e-12, circle.words());
            assertEquals(3, found.x_mm(), 1e-12, circle.words());
            assertEquals(-5, found.y_mm(), 1e-12, circle.words());
            assertEquals(20, found.radius_mm(), 1e-12, circle.words());
        }
    }

    /** Published: few points, far from any circle, and an arc only. */
    @Test
    void sixPointsOfACircle() {
        try (Published bit = Published.source("circle.txt")) {
            Roundness circle = CircleFit.ofPoints(ReferenceCircle.LEAST_SQUARES, bit.data("x"), bit.data("y"));
            double squares = 0;
            for (int i = 0; i < bit.data("x").length; i++) {
                double off = Math.hypot(bit.data("x")[i] - circle.x_mm(), bit.data("y")[i] - circle.y_mm())
                        - circle.radius_mm();
                squares += off * off;
            }
            for (String more : new String[] {"", "_more"}) {
                bit.check("centre" + more, circle.x_mm(), circle.y_mm());
                bit.check("radius" + more, circle.radius_mm());
            }
            bit.check("root_of_sum_of_squares", Math.sqrt(squares));
        }
    }
}

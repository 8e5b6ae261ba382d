package sweepbook.analysis.runout.circle;

import java.util.Arrays;

/**
 * The four reference circles about points in polar form. Minimum zone, minimum circumscribed and maximum inscribed are
 * linear programmes in the centre and the radii, solved exactly.
 *
 * <p>Two ways to take a distance. {@link #ofRunout}: the radius is large against everything (ISO 12181, ISO 4291), so
 * the distance from the centre (x, y) is r - x cos t - y sin t. {@link #ofPoints}: true plane distances; the programme
 * is solved again about each new centre until it stays, which for a nearly round part is at once.
 */
public final class CircleFit {
    private static final int MOST_ROUNDS = 400;

    private final double[] angle_rad;
    private final double[] radius_mm;

    private CircleFit(double[] angle_rad, double[] radius_mm) {
        this.angle_rad = angle_rad;
        this.radius_mm = radius_mm;
    }

    /** About radii read at angles all round; they may lack a constant, as an indicator's readings do. */
    public static Roundness ofRunout(ReferenceCircle circle, double[] angle_rad, double[] radius_mm) {
        return new CircleFit(angle_rad, radius_mm).fit(circle);
    }

    /** About points of a plane that go nearly round a centre of theirs, in any order. */
    public static Roundness ofPoints(ReferenceCircle circle, double[] x_mm, double[] y_mm) {
        double x = Arrays.stream(x_mm).average().orElseThrow();
        double y = Arrays.stream(y_mm).average().orElseThrow();
        CircleFit here = about(x_mm, y_mm, x, y);
        Roundness step = here.fit(circle);
        double share = 1;
        for (int round = 0; round < MOST_ROUNDS; round++) {
            double nextX = x + share * step.x_mm();
            double nextY = y + share * step.y_mm();
            CircleFit next = about(x_mm, y_mm, nextX, nextY);
            // Where the tangents promise more than the circles keep, a shorter step in the same direction keeps it.
            if (circle != ReferenceCircle.LEAST_SQUARES && next.size(circle) > here.size(circle)) {
                share /= 2;
                continue;
            }
            x = nextX;
            y = nextY;
            here = next;
            step = here.fit(circle);
            share = Math.min(1, 2 * share);
            if (Math.hypot(step.x_mm(), step.y_mm()) * share < 1e-13 * Math.abs(step.radius_mm())) {
                break;
            }
        }
        Roundness found = here.about(0, 0, step.radius_mm(), step.touching());
        double radius =
                switch (circle) {
                    case MINIMUM_CIRCUMSCRIBED ->
                        Arrays.stream(here.radius_mm).max().orElseThrow();
                    case MAXIMUM_INSCRIBED ->
                        Arrays.stream(here.radius_mm).min().orElseThrow();
                    default -> step.radius_mm();
                };
        return new Roundness(x, y, radius, found.outOfRoundness_mm(), step.touching());
    }

    private static CircleFit about(double[] x_mm, double[] y_mm, double x, double y) {
        double[] angle = new double[x_mm.length];
        double[] radius = new double[x_mm.length];
        for (int i = 0; i < angle.length; i++) {
            angle[i] = Math.atan2(y_mm[i] - y, x_mm[i] - x);
            radius[i] = Math.hypot(x_mm[i] - x, y_mm[i] - y);
        }
        return new CircleFit(angle, radius);
    }

    /** What the reference circle makes small. */
    private double size(ReferenceCircle circle) {
        double max = Arrays.stream(radius_mm).max().orElseThrow();
        double min = Arrays.stream(radius_mm).min().orElseThrow();
        return switch (circle) {
            case MINIMUM_CIRCUMSCRIBED -> max;
            case MAXIMUM_INSCRIBED -> -min;
            default -> max - min;
        };
    }

    private Roundness fit(ReferenceCircle circle) {
        return switch (circle) {
            case LEAST_SQUARES -> leastSquares();
            case MINIMUM_ZONE -> minimumZone();
            case MINIMUM_CIRCUMSCRIBED -> oneSided(+1);
            case MAXIMUM_INSCRIBED -> oneSided(-1);
        };
    }

    private Roundness about(double x, double y, double radius, int[] touching) {
        double max = Double.NEGATIVE_INFINITY;
        double min = Double.POSITIVE_INFINITY;
        for (int i = 0; i < angle_rad.length; i++) {
            double d = radius_mm[i] - x * Math.cos(angle_rad[i]) - y * Math.sin(angle_rad[i]);
            max = Math.max(max, d);
            min = Math.min(min, d);
        }
        return new Roundness(x, y, radius, max - min, touching);
    }

    private Roundness leastSquares() {
        double[][] a = new double[3][4];
        double[] row = new double[4];
        for (int i = 0; i < angle_rad.length; i++) {
            row[0] = 1;
            row[1] = Math.cos(angle_rad[i]);
            row[2] = Math.sin(angle_rad[i]);
            row[3] = radius_mm[i];
            for (int j = 0; j < 3; j++) {
                for (int k = 0; k < 4; k++) {
                    a[j][k] += row[j] * row[k];
                }
            }
        }
        double[] right = {a[0][3], a[1][3], a[2][3]};
        double[][] normal = new double[3][];
        for (int j = 0; j < 3; j++) {
            normal[j] = Arrays.copyOf(a[j], 3);
        }
        double[] solved = DualSimplex.solve(normal, right);
        return about(solved[1], solved[2], solved[0], new int[0]);
    }

    /** Least h with |r - R - x cos t - y sin t| <= h: conditions 2i and 2i + 1 for the outer and the inner side. */
    private Roundness minimumZone() {
        DualSimplex least = new DualSimplex(
                new double[] {0, 0, 0, 1},
                new DualSimplex.Conditions() {
                    @Override
                    public int count() {
                        return 2 * angle_rad.length;
                    }

                    @Override
                    public double row(int i, double[] row) {
                        double side = i % 2 == 0 ? 1 : -1;
                        row[0] = side;
                        row[1] = side * Math.cos(angle_rad[i / 2]);
                        row[2] = side * Math.sin(angle_rad[i / 2]);
                        row[3] = 1;
                        return side * radius_mm[i / 2];
                    }
                },
                // Four points in turn outside and inside always hold up a zone.
                alternating());
        double[] x = least.solution();
        return about(
                x[1], x[2], x[0], Arrays.stream(least.holding()).map(c -> c / 2).toArray());
    }

    private int[] alternating() {
        Integer[] order = byAngle();
        int n = order.length;
        int[] start = new int[4];
        for (int k = 0; k < 4; k++) {
            start[k] = 2 * order[k * n / 4] + k % 2;
        }
        return start;
    }

    private Integer[] byAngle() {
        Integer[] order = new Integer[angle_rad.length];
        Arrays.setAll(order, i -> i);
        Arrays.sort(order, (i, j) -> Double.compare(turn(angle_rad[i]), turn(angle_rad[j])));
        return order;
    }

    private static double turn(double angle) {
        return angle - 2 * Math.PI * Math.floor(angle / (2 * Math.PI));
    }

    /** Least R with R + x cos t + y sin t >= r for the circle outside; for the one inside the same of -r. */
    private Roundness oneSided(int side) {
        DualSimplex least = new DualSimplex(
                new double[] {1, 0, 0},
                new DualSimplex.Conditions() {
                    @Override
                    public int count() {
                        return angle_rad.length;
                    }

                    @Override
                    public double row(int i, double[] row) {
                        row[0] = 1;
                        row[1] = Math.cos(angle_rad[i]);
                        row[2] = Math.sin(angle_rad[i]);
                        return side * radius_mm[i];
                    }
                },
                surrounding());
        double[] x = least.solution();
        return about(side * x[1], side * x[2], side * x[0], least.holding());
    }

    /** Three points about the centre: the first, the last before half a turn, the next after. */
    private int[] surrounding() {
        Integer[] order = byAngle();
        double first = turn(angle_rad[order[0]]);
        int k = 1;
        while (k < order.length && turn(angle_rad[order[k]]) - first < Math.PI) {
            k++;
        }
        if (k == 1 || k == order.length) {
            throw new IllegalArgumentException("the points leave half a turn free; no circle is held");
        }
        return new int[] {order[0], order[k - 1], order[k]};
    }
}

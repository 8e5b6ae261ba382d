package sweepbook.analysis.sweep;

import java.util.Optional;
import org.hipparchus.util.FastMath;

/**
 * What a stand that settles after the jog may still move a level, too little to be seen for sure: the mean over nothing moving and
 * exponentials of some times, each weighed by how likely it makes the readings (model averaging: Hoeting et al. 1999).
 */
final class Settling {
    private static final double[] TIMES_s = {0.1, 0.2, 0.4, 0.8, 1.6};
    /** A stretch shows what settles within this part of it; what takes longer is a creep. */
    private static final double OF_STRETCH = 1 / 3.0;
    /** One stand in five settles, by some standard deviations of a reading (a judgement, not measured). */
    private static final double SETTLES = 0.2;
    /** So seldom one moves on steadily by as much. */
    private static final double MOVES = 0.1;

    private static final double SIZE = 3;
    /** So many times likelier than nothing settling is seen, and tells where the jog ended. */
    private static final double SEEN = 20;
    /** Longer than a click moves. */
    private static final double AFTER_CLICK_s = 0.1;
    /** More readings are averaged in groups. */
    private static final int GROUPS = 1000;

    private static final double LEAST_SPREAD = 1e-9;
    private static final double MOST_GAIN = 500;

    private final double mean_mm;
    private final double stdU_mm;
    private final Optional<Model> seen;

    private Settling(double mean_mm, double stdU_mm, Optional<Model> seen) {
        this.mean_mm = mean_mm;
        this.stdU_mm = stdU_mm;
        this.seen = seen;
    }

    /**
     * @param time_s of readings in time order, spikes left out
     * @param used_s the mean of the readings from then on is the level
     * @param variance_mm2 of a reading, larger where its neighbours are alike
     */
    static Settling of(double[] time_s, double[] reading_mm, double used_s, double variance_mm2) {
        Groups groups = new Groups(time_s, reading_mm, used_s);
        // What creeps or drifts all the time pulls the mean nowhere, but looks like a slow settling.
        double moves = MOVES * FastMath.exp(Math.min(groups.moving(variance_mm2), MOST_GAIN));
        double likelihood = 1 - SETTLES - MOVES + moves;
        double others = likelihood;
        double sum = 0;
        double squares = 0;
        Model likeliest = Model.NONE;
        for (double tau_s : TIMES_s) {
            if (tau_s <= OF_STRETCH * groups.seconds()) {
                Model model = groups.settling(tau_s, variance_mm2);
                double weight = SETTLES / TIMES_s.length * FastMath.exp(Math.min(model.gain, MOST_GAIN));
                likelihood += weight;
                sum += weight * model.mean_mm;
                squares += weight * (model.mean_mm * model.mean_mm + model.variance_mm2);
                likeliest = model.gain > likeliest.gain ? model : likeliest;
            }
        }
        double mean = sum / likelihood;
        boolean isSeen = likelihood - others > SEEN * others;
        return new Settling(
                mean,
                FastMath.sqrt(Math.max(0, squares / likelihood - mean * mean)),
                isSeen ? Optional.of(likeliest) : Optional.empty());
    }

    /** How far the mean of the readings that are used lies off where the stretch settles; signed. */
    double mean_mm() {
        return mean_mm;
    }

    double stdU_mm() {
        return stdU_mm;
    }

    /** How far the stretch begins off where it settles; signed, 0 where a settling is not seen. */
    double begins_mm() {
        return seen.map(Model::begins_mm).orElse(0.0);
    }

    /** Whether a settling is seen, beside which a creep by so much a second is not. */
    boolean isAll(double creep_mm_per_s) {
        return seen.filter(model -> Math.abs(model.creep_mm_per_s) + model.creepU_mm_per_s <= creep_mm_per_s)
                .isPresent();
    }

    /**
     * One time of settling.
     *
     * @param gain log likelihood over that of nothing moving
     * @param mean_mm what settles adds to the mean of what is used, and its variance
     * @param creep_mm_per_s at which the stretch moves on beside, and its standard uncertainty
     */
    private record Model(
            double gain,
            double mean_mm,
            double variance_mm2,
            double begins_mm,
            double creep_mm_per_s,
            double creepU_mm_per_s) {
        private static final Model NONE = new Model(Double.NEGATIVE_INFINITY, 0, 0, 0, 0, Double.POSITIVE_INFINITY);
    }

    /** Readings, many of them averaged in groups. */
    private static final class Groups {
        private final double[] since_s;
        private final double[] y_mm;
        private final double[] weight;
        private final double used_s;

        Groups(double[] time_s, double[] reading_mm, double used_s) {
            int begin = 0;
            while (begin < time_s.length && time_s[begin] < Math.min(time_s[0] + AFTER_CLICK_s, used_s)) {
                begin++;
            }
            int n = time_s.length - begin;
            int size = 1 + n / GROUPS;
            since_s = new double[(n + size - 1) / size];
            y_mm = new double[since_s.length];
            weight = new double[since_s.length];
            for (int i = 0; i < n; i++) {
                int k = i / size;
                weight[k]++;
                since_s[k] += (time_s[begin + i] - time_s[begin] - since_s[k]) / weight[k];
                y_mm[k] += (reading_mm[begin + i] - y_mm[k]) / weight[k];
            }
            this.used_s = n == 0 ? 0 : used_s - time_s[begin];
        }

        double seconds() {
            return since_s.length == 0 ? 0 : since_s[since_s.length - 1];
        }

        /** Log likelihood of moving on steadily over that of nothing moving. */
        double moving(double variance_mm2) {
            double all = 0;
            double t = 0;
            double y = 0;
            double tt = 0;
            double ty = 0;
            for (int k = 0; k < since_s.length; k++) {
                all += weight[k];
                t += weight[k] * since_s[k];
                y += weight[k] * y_mm[k];
                tt += weight[k] * since_s[k] * since_s[k];
                ty += weight[k] * since_s[k] * y_mm[k];
            }
            double spread = (tt - t * t / all) / seconds() / seconds();
            double move = (ty - t * y / all) / seconds() / spread;
            return spread > LEAST_SPREAD ? gain(move, variance_mm2 / spread, variance_mm2) : 0;
        }

        /** Log likelihood of a motion of this size over that of none, from its variance and that of a reading. */
        private static double gain(double size_mm, double told_mm2, double variance_mm2) {
            double before = SIZE * SIZE * variance_mm2;
            double all = told_mm2 + before;
            return (FastMath.log(told_mm2 / all) + size_mm * size_mm * before / all / told_mm2) / 2;
        }

        Model settling(double tau_s, double variance_mm2) {
            double[] left = new double[since_s.length];
            double all = 0;
            double x = 0;
            double y = 0;
            double t = 0;
            double used = 0;
            double xUsed = 0;
            for (int k = 0; k < left.length; k++) {
                left[k] = FastMath.exp(-since_s[k] / tau_s);
                all += weight[k];
                x += weight[k] * left[k];
                y += weight[k] * y_mm[k];
                t += weight[k] * since_s[k];
                if (since_s[k] >= used_s) {
                    used += weight[k];
                    xUsed += weight[k] * left[k];
                }
            }
            double xx = 0;
            double xy = 0;
            double xt = 0;
            double tt = 0;
            double ty = 0;
            for (int k = 0; k < left.length; k++) {
                double dx = left[k] - x / all;
                xx += weight[k] * dx * dx;
                double dy = y_mm[k] - y / all;
                double dt = since_s[k] - t / all;
                xy += weight[k] * dx * dy;
                xt += weight[k] * dx * dt;
                tt += weight[k] * dt * dt;
                ty += weight[k] * dt * dy;
            }
            if (xx < LEAST_SPREAD || used == 0) {
                return Model.NONE;
            }
            double told = variance_mm2 / xx;
            double before = SIZE * SIZE * variance_mm2;
            double shrinks = before / (told + before);
            double size = xy / xx;
            double gain = gain(size, told, variance_mm2);
            double share = xUsed / used;
            double free = xx * tt - xt * xt;
            return new Model(
                    gain,
                    share * size * shrinks,
                    share * share * told * shrinks,
                    size * shrinks,
                    (ty * xx - xt * xy) / free,
                    FastMath.sqrt(variance_mm2 * xx / free));
        }
    }
}

package sweepbook.analysis.sweep;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import org.hipparchus.util.FastMath;

/**
 * What a stand that settles after the jog may still move a level, too little to be seen for sure: the mean over nothing moving and
 * exponentials of some times, each weighed by how likely it makes the readings (model averaging: Hoeting et al. 1999).
 */
final class Settling {
    private static final double SHORTEST_s = 0.1;
    private static final double LONGEST_s = 1.6;
    private static final double FINE = 1.26;
    /** A stretch shows what settles within this part of it; what takes longer is a creep. */
    private static final double OF_STRETCH = 1 / 3.0;
    /** One stand in five settles, by some standard deviations of a reading (a judgement, not measured). */
    private static final double SETTLES = 0.2;
    /** So seldom one moves on steadily by as much. */
    private static final double MOVES = 0.1;
    /** So seldom the stretch begins on another level, that of the click before. */
    private static final double CLICKED = 1e-3;

    private static final double[] CLICKED_s = {0.1, 0.2, 0.3, 0.4, 0.6, 0.8, 1.1, 1.5, 2, 2.8, 4};

    private static final double SIZE = 3;
    /** So many times likelier than nothing settling is seen, and tells where the jog ended. */
    private static final double SEEN = 20;
    /** Longer than a click moves. */
    private static final double AFTER_CLICK_s = 0.1;
    /** More readings are averaged in groups. */
    private static final int GROUPS = 1000;

    private static final double LEAST_SPREAD = 1e-9;

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
        Groups groups = new Groups(time_s, reading_mm, used_s, variance_mm2);
        List<Model> models = groups.models();
        Model likeliest =
                models.stream().max((a, b) -> Double.compare(a.log, b.log)).orElse(Model.still(0));
        double all = 0;
        double settles = 0;
        double sum = 0;
        double squares = 0;
        for (Model model : models) {
            double weight = FastMath.exp(model.log - likeliest.log);
            all += weight;
            settles += model.settles ? weight : 0;
            sum += weight * model.mean_mm;
            squares += weight * (model.mean_mm * model.mean_mm + model.variance_mm2);
        }
        double mean = all > 0 ? sum / all : 0;
        double variance = all > 0 ? squares / all - mean * mean : 0;
        return new Settling(
                mean,
                FastMath.sqrt(Math.max(0, variance)),
                settles > SEEN * (all - settles) ? Optional.of(likeliest) : Optional.empty());
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

    /** From when on what settles is off by less than this; at once where no settling is seen. */
    double isWithin_s(double off_mm) {
        return seen.map(model ->
                        model.from_s + model.tau_s * FastMath.log(Math.max(1, Math.abs(model.begins_mm) / off_mm)))
                .orElse(Double.NEGATIVE_INFINITY);
    }

    /** Whether a settling is seen, beside which a creep by so much a second is not. */
    boolean isAll(double creep_mm_per_s) {
        return seen.filter(model -> Math.abs(model.creep_mm_per_s) + model.creepU_mm_per_s <= creep_mm_per_s)
                .isPresent();
    }

    /**
     * What the stretch may have done.
     *
     * @param log how likely, over that nothing moved
     * @param settles whether the stand settled
     * @param from_s since when, by this time, from so far off
     * @param mean_mm what that adds to the mean of what is used, and its variance
     * @param creep_mm_per_s at which the stretch moves on beside, and its standard uncertainty
     */
    private record Model(
            double log,
            boolean settles,
            double from_s,
            double tau_s,
            double begins_mm,
            double mean_mm,
            double variance_mm2,
            double creep_mm_per_s,
            double creepU_mm_per_s) {
        static Model still(double log) {
            return new Model(log, false, 0, 0, 0, 0, 0, 0, Double.POSITIVE_INFINITY);
        }
    }

    /** Readings, many of them averaged in groups. */
    private static final class Groups {
        private final double[] since_s;
        private final double[] y_mm;
        private final double[] weight;
        private final double origin_s;
        private final double used_s;
        private final double variance_mm2;

        Groups(double[] time_s, double[] reading_mm, double used_s, double variance_mm2) {
            this.variance_mm2 = variance_mm2;
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
            origin_s = n == 0 ? 0 : time_s[begin];
            this.used_s = used_s - origin_s;
        }

        /** Nothing moved, or all the time, or the stand settled; and each of that, but for the motion, from somewhat later on. */
        List<Model> models() {
            List<Model> models = new ArrayList<>();
            if (since_s.length == 0) {
                return models;
            }
            // What creeps or drifts all the time pulls the mean nowhere, but looks like a slow settling.
            models.add(Model.still(FastMath.log(MOVES) + moves()));
            int[] begins = begins();
            double about = squares(0, since_s.length);
            double[] later = new double[begins.length];
            for (int b = 0; b < begins.length; b++) {
                double parted = squares(0, begins[b]) + squares(begins[b], since_s.length);
                later[b] = b == 0 ? 0 : FastMath.log(CLICKED) + (about - parted) / variance_mm2 / 2;
                models.add(Model.still(FastMath.log(1 - SETTLES - MOVES) + later[b]));
            }
            double longest_s = Math.min(LONGEST_s, OF_STRETCH * since_s[since_s.length - 1]);
            double each = SETTLES / (1 + FastMath.log(LONGEST_s / SHORTEST_s) / FastMath.log(FINE));
            for (double tau_s = SHORTEST_s; tau_s <= longest_s; tau_s *= FINE) {
                Sums[] sums = sums(begins, decay(tau_s));
                for (int b = 0; b < begins.length; b++) {
                    settles(tau_s, sums[b], begins[b], FastMath.log(each) + later[b])
                            .ifPresent(models::add);
                }
            }
            return models;
        }

        /** The groups at which what stands or settles may begin. */
        private int[] begins() {
            int[] begins = new int[CLICKED_s.length + 1];
            int found = 1;
            int k = 0;
            for (double clicked_s : CLICKED_s) {
                while (k < since_s.length && since_s[k] < clicked_s) {
                    k++;
                }
                if (clicked_s <= used_s && k > begins[found - 1] && k < since_s.length) {
                    begins[found++] = k;
                }
            }
            return Arrays.copyOf(begins, found);
        }

        /** About their mean, of some groups. */
        private double squares(int from, int to) {
            double all = 0;
            double y = 0;
            double yy = 0;
            for (int k = from; k < to; k++) {
                all += weight[k];
                y += weight[k] * y_mm[k];
                yy += weight[k] * y_mm[k] * y_mm[k];
            }
            return all > 0 ? Math.max(0, yy - y * y / all) : 0;
        }

        /** Log likelihood of moving on steadily over that of nothing moving. */
        private double moves() {
            double seconds = Math.max(since_s[since_s.length - 1], LEAST_SPREAD);
            double[] moved = Arrays.stream(since_s).map(t -> 1 + t / seconds).toArray();
            Sums sums = sums(new int[] {0}, moved)[0];
            return sums.xx() > LEAST_SPREAD ? gain(sums.xy() / sums.xx(), variance_mm2 / sums.xx()) : 0;
        }

        /** What is left of a settling by each group, had it begun with the first. */
        private double[] decay(double tau_s) {
            return Arrays.stream(since_s).map(t -> Math.exp(-t / tau_s)).toArray();
        }

        /** Settles from a group on; empty where the readings do not tell. */
        private Optional<Model> settles(double tau_s, Sums sums, int begin, double before) {
            if (sums.xx() < LEAST_SPREAD || sums.used() == 0) {
                return Optional.empty();
            }
            double told = variance_mm2 / sums.xx();
            double prior = SIZE * SIZE * variance_mm2;
            double shrinks = prior / (told + prior);
            double size = sums.xy() / sums.xx();
            double share = sums.xUsed() / sums.used();
            double free = sums.xx() * sums.tt() - sums.xt() * sums.xt();
            return Optional.of(new Model(
                    before + gain(size, told),
                    true,
                    origin_s + since_s[begin],
                    tau_s,
                    size * shrinks,
                    share * size * shrinks,
                    share * share * told * shrinks,
                    (sums.ty() * sums.xx() - sums.xt() * sums.xy()) / free,
                    FastMath.sqrt(variance_mm2 * sums.xx() / free)));
        }

        /** Log likelihood of a motion of this size over that of none, from the variance to which the readings tell it. */
        private double gain(double size_mm, double told_mm2) {
            double prior = SIZE * SIZE * variance_mm2;
            double all = told_mm2 + prior;
            return (FastMath.log(told_mm2 / all) + size_mm * size_mm * prior / all / told_mm2) / 2;
        }

        /**
         * From each begin on, sums over the groups about their means; they are added up from the end, once for all begins.
         *
         * @param begins ascending
         * @param x a shape, which counts by its value at the begin
         */
        private Sums[] sums(int[] begins, double[] x) {
            Sums[] sums = new Sums[begins.length];
            double all = 0;
            double used = 0;
            double xUsed = 0;
            double sx = 0;
            double sy = 0;
            double st = 0;
            double xx = 0;
            double xy = 0;
            double xt = 0;
            double tt = 0;
            double ty = 0;
            int k = x.length;
            for (int b = begins.length - 1; b >= 0; b--) {
                while (k > begins[b]) {
                    k--;
                    double t = since_s[k];
                    double wx = weight[k] * x[k];
                    double wt = weight[k] * t;
                    all += weight[k];
                    used += t >= used_s ? weight[k] : 0;
                    xUsed += t >= used_s ? wx : 0;
                    sx += wx;
                    sy += weight[k] * y_mm[k];
                    st += wt;
                    xx += wx * x[k];
                    xy += wx * y_mm[k];
                    xt += wx * t;
                    tt += wt * t;
                    ty += wt * y_mm[k];
                }
                double scale = 1 / x[k];
                sums[b] = new Sums(
                        scale * scale * (xx - sx * sx / all),
                        scale * (xy - sx * sy / all),
                        scale * (xt - sx * st / all),
                        tt - st * st / all,
                        ty - st * sy / all,
                        used,
                        scale * xUsed);
            }
            return sums;
        }
    }

    /** Sums of products of a shape x, of the time t and of the readings y about their means; and how much of it all is used. */
    private record Sums(double xx, double xy, double xt, double tt, double ty, double used, double xUsed) {}
}

package sweepbook.analysis.sweep;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.List;
import java.util.OptionalDouble;
import java.util.stream.DoubleStream;
import java.util.stream.IntStream;
import org.hipparchus.util.FastMath;

/**
 * Tells passes from the swings of a stand that rocks while a pass goes over the crest: several tops on one hump of the line, each
 * quicker than a hand.
 */
final class Humps {
    /** A top that takes no more than this part of the time in which an even hand goes as far to either side is a swing. */
    private static final double QUICK = 0.3;

    /** A hand that comes back up by this part of the depth has turned; a stand hardly swings so far. */
    private static final double TURNED = 0.25;

    private final CleanTrace trace;
    private final double depth_mm;

    private Humps(CleanTrace trace, double depth_mm) {
        this.trace = trace;
        this.depth_mm = depth_mm;
    }

    /**
     * Tops about one level, in time order, without those that are swings; of a hump of nothing but swings the highest stays. They
     * fall no farther than to where the line turns up to the next of them.
     */
    static List<Top> passes(CleanTrace trace, List<Top> tops) {
        double outside_mm =
                Math.min(tops.get(0).leftFall_mm(), tops.get(tops.size() - 1).rightFall_mm());
        Humps humps = new Humps(trace, Math.max(outside_mm, Top.deepest_mm(parted(trace, tops))));
        List<Top> passes = new ArrayList<>();
        for (int from = 0, to = 1; from < tops.size(); from = to, to++) {
            while (to < tops.size() && humps.isOneHump(tops.get(to - 1), tops.get(to))) {
                to++;
            }
            passes.addAll(humps.slow(tops.subList(from, to)));
        }
        return parted(trace, passes);
    }

    private boolean isOneHump(Top top, Top next) {
        double valley_mm = trace.lowest_mm(top.index(), next.index());
        return Math.min(top.level_mm(), next.level_mm()) - valley_mm < depth_mm / 2;
    }

    /** The tops of a hump that a hand may have made. */
    private List<Top> slow(List<Top> hump) {
        if (hump.size() == 1) {
            return hump;
        }
        Top first = hump.get(0);
        Top last = hump.get(hump.size() - 1);
        Top highest =
                hump.stream().max(Comparator.comparingDouble(Top::level_mm)).orElseThrow();
        double half_mm = highest.level_mm() - depth_mm / 2;
        OptionalDouble flank_s = DoubleStream.of(flank_s(first, half_mm, -1), flank_s(last, half_mm, +1))
                .filter(Double::isFinite)
                .average();
        if (flank_s.isEmpty()) {
            return hump;
        }
        double even_s = 2 * flank_s.getAsDouble();
        List<Top> parted = parted(trace, hump);
        List<Top> slow = IntStream.range(0, hump.size())
                .filter(i -> !isQuick(parted.get(i), even_s))
                .mapToObj(hump::get)
                .toList();
        return slow.isEmpty() ? List.of(highest) : slow;
    }

    private boolean isQuick(Top top, double even_s) {
        return trace.halfFalls_s(top.index(), top.level_mm(), top.fall_mm())
                < QUICK * even_s * FastMath.sqrt(top.fall_mm() / depth_mm);
    }

    /** Down from a top to a level; infinite where the hand turned before it. */
    private double flank_s(Top top, double level_mm, int direction) {
        double[] line = trace.line_mm();
        double lowest = top.level_mm();
        for (int i = top.index(); i >= 0 && i < line.length; i += direction) {
            lowest = Math.min(lowest, line[i]);
            if (lowest <= level_mm) {
                return Math.abs(trace.time_s()[i] - trace.time_s()[top.index()]);
            }
            if (line[i] - lowest > TURNED * depth_mm) {
                break;
            }
        }
        return Double.POSITIVE_INFINITY;
    }

    /** The same tops falling no farther than to the valleys between them: there the hand turns between passes. */
    private static List<Top> parted(CleanTrace trace, List<Top> tops) {
        double[] valley_mm = new double[tops.size() + 1];
        Arrays.fill(valley_mm, Double.NEGATIVE_INFINITY);
        for (int i = 1; i < tops.size(); i++) {
            valley_mm[i] = trace.lowest_mm(tops.get(i - 1).index(), tops.get(i).index());
        }
        List<Top> parted = new ArrayList<>();
        for (int i = 0; i < tops.size(); i++) {
            parted.add(tops.get(i).noDeeperThan(valley_mm[i], valley_mm[i + 1]));
        }
        return parted;
    }
}

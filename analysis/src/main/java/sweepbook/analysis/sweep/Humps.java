package sweepbook.analysis.sweep;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import org.hipparchus.util.FastMath;

/** Tells passes from the swings of a stand that rocks while a pass goes over the crest: several tops on one hump of the line. */
final class Humps {
    /** A top so many times quicker than an even hand goes that far to either side of it is a swing. */
    private static final double QUICKER = 0.3;

    private final CleanTrace trace;
    private final double deepest_mm;

    private Humps(CleanTrace trace, double deepest_mm) {
        this.trace = trace;
        this.deepest_mm = deepest_mm;
    }

    /** Tops about one level, in time order, without those that are swings; of a hump of nothing but swings the highest stays. */
    static List<Top> withoutSwings(CleanTrace trace, List<Top> tops) {
        Humps humps = new Humps(trace, Top.deepest_mm(tops));
        List<Top> passes = new ArrayList<>();
        for (int from = 0, to = 1; from < tops.size(); from = to, to++) {
            while (to < tops.size() && humps.isOneHump(tops.get(to - 1), tops.get(to))) {
                to++;
            }
            passes.addAll(humps.passes(tops.subList(from, to)));
        }
        return passes;
    }

    private boolean isOneHump(Top top, Top next) {
        return valley_mm(top, next) < deepest_mm / 2;
    }

    private double valley_mm(Top top, Top next) {
        return Math.min(top.level_mm(), next.level_mm()) - trace.lowest_mm(top.index(), next.index());
    }

    private List<Top> passes(List<Top> hump) {
        if (hump.size() == 1) {
            return hump;
        }
        double half_mm = highest(hump).level_mm() - deepest_mm / 2;
        double width_s = toLevel_s(hump.get(0), half_mm, -1)
                + toLevel_s(hump.get(hump.size() - 1), half_mm, +1)
                + trace.time_s()[hump.get(hump.size() - 1).index()]
                - trace.time_s()[hump.get(0).index()];
        List<Top> passes = new ArrayList<>();
        for (int i = 0; i < hump.size(); i++) {
            Top top = hump.get(i);
            double fall_mm = top.fall_mm();
            fall_mm = i > 0 ? Math.min(fall_mm, valley_mm(hump.get(i - 1), top)) : fall_mm;
            fall_mm = i < hump.size() - 1 ? Math.min(fall_mm, valley_mm(top, hump.get(i + 1))) : fall_mm;
            double level_mm = top.level_mm() - fall_mm / 2;
            double seconds = 2 * Math.min(toLevel_s(top, level_mm, -1), toLevel_s(top, level_mm, +1));
            if (seconds > QUICKER * width_s * FastMath.sqrt(fall_mm / deepest_mm)) {
                passes.add(top);
            }
        }
        return passes.isEmpty() ? List.of(highest(hump)) : passes;
    }

    private static Top highest(List<Top> hump) {
        return hump.stream().max(Comparator.comparingDouble(Top::level_mm)).orElseThrow();
    }

    private double toLevel_s(Top top, double level_mm, int direction) {
        double[] line = trace.line_mm();
        int i = top.index();
        while (i + direction >= 0 && i + direction < line.length && line[i] > level_mm) {
            i += direction;
        }
        return Math.abs(trace.time_s()[i] - trace.time_s()[top.index()]);
    }
}

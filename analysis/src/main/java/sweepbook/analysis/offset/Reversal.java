package sweepbook.analysis.offset;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.stream.Stream;
import sweepbook.analysis.uncertainty.Budget;

/**
 * One feature against a rotary axis: it is touched before and after half a turn, from the same side. Its eccentricity
 * is half the difference of its two places (with repeats, of their means), positive where the feature lay on the plus side of the axis at the first
 * touch; radii drop out, and so does everything that was the same both times.
 */
public final class Reversal {
    private final List<Touch> atStart;
    private final List<Touch> turned;
    private final TouchPair difference;

    public Reversal(Touch atStart, Touch turned) {
        this(List.of(atStart), List.of(turned));
    }

    /** As many touches before the turn as after it, in the order in which they were made. */
    public Reversal(List<Touch> atStart, List<Touch> turned) {
        this.atStart = List.copyOf(atStart);
        this.turned = List.copyOf(turned);
        this.difference = new TouchPair(turned, atStart);
        Touch first = atStart.get(0);
        for (Touch touch : all()) {
            if (!first.feature().equals(touch.feature())) {
                throw new IllegalArgumentException("a reversal touches one feature twice, not "
                        + first.feature().name() + " and " + touch.feature().name());
            }
            if (!first.approach().equals(touch.approach())) {
                throw new IllegalArgumentException("a reversal touches "
                        + first.feature().name() + " from the same side before and after the turn");
            }
        }
    }

    private List<Touch> all() {
        return Stream.concat(atStart.stream(), turned.stream()).toList();
    }

    /** The eccentricity with its sources of uncertainty, in millimetres. */
    public Budget eccentricity(TouchConditions conditions) {
        return difference.offset(conditions).times(0.5);
    }

    /** The distance from the rotary axis to another feature, touched in the same stand, in millimetres. */
    public Budget fromAxisTo(Touch other, TouchConditions conditions) {
        List<Touch> touches = new ArrayList<>(all());
        double[] weight = new double[touches.size() + 1];
        Arrays.fill(weight, -1.0 / touches.size());
        weight[touches.size()] = 1;
        touches.add(other);
        return new WeightedTouches(touches, weight).budget(conditions);
    }

    /** What the budget lacks or the person should look at, in plain words. */
    public List<String> warnings(TouchConditions conditions) {
        return difference.warnings(conditions);
    }
}

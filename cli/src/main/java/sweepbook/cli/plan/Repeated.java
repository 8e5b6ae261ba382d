package sweepbook.cli.plan;

import java.util.List;
import java.util.stream.IntStream;
import java.util.stream.Stream;
import sweepbook.analysis.offset.Touch;
import sweepbook.cli.plan.TouchSeries.PlannedTouch;

/** Two touches made in turn, once or several times: first, second, first, second. */
sealed interface Repeated extends Method permits DifferenceMethod, ReversalMethod {
    /** Beyond it drift and patience eat what more repeats would bring. */
    int MOST = 30;

    /** How often both touches are made. */
    int repeats();

    Measurement of(List<Touch> first, List<Touch> second);

    /** A mistake that repeats do not show either, with what would show it. */
    String neverNoticed();

    @Override
    default String inWords() {
        return word() + (repeats() == 1 ? "" : ", made " + repeats() + " times and pooled");
    }

    @Override
    default void check(List<PlannedTouch> touches) {
        if (touches.size() != 2 * repeats()) {
            throw new IllegalArgumentException(
                    "a " + word() + " takes 2 touches, but " + touches.size() / repeats() + " are planned");
        }
    }

    @Override
    default Measurement of(List<MadeTouch> touches) {
        return of(everySecond(touches, 0), everySecond(touches, 1));
    }

    /** Repeats that scatter tell of a stand that was bumped; a single pair does not. */
    @Override
    default List<String> unnoticed() {
        Stream<String> bump = Stream.of(
                "A stand or part that was bumped between the touches: touch the first feature once more at the end, or"
                        + " repeat both.");
        return Stream.concat(bump.limit(repeats() == 1 ? 1 : 0), Stream.of(neverNoticed()))
                .toList();
    }

    private static List<Touch> everySecond(List<MadeTouch> touches, int from) {
        return IntStream.range(0, touches.size())
                .filter(i -> i % 2 == from)
                .mapToObj(i -> touches.get(i).touch())
                .toList();
    }
}

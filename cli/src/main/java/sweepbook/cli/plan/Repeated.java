package sweepbook.cli.plan;

import java.util.List;
import java.util.stream.IntStream;
import sweepbook.analysis.offset.Touch;
import sweepbook.cli.plan.TouchSeries.PlannedTouch;

/** Two touches made in turn, once or several times: first, second, first, second. */
final class Repeated {
    /** Beyond it drift and patience eat what more repeats would bring. */
    static final int MOST = 30;

    private Repeated() {}

    static void check(Method method, List<PlannedTouch> touches, int repeats) {
        if (touches.size() != 2 * repeats) {
            throw new IllegalArgumentException(
                    "a " + method.word() + " takes 2 touches, but " + touches.size() / repeats + " are planned");
        }
    }

    static String inWords(int repeats) {
        return repeats == 1 ? "" : ", made " + repeats + " times and pooled";
    }

    static List<Touch> first(List<MadeTouch> touches) {
        return everySecond(touches, 0);
    }

    static List<Touch> second(List<MadeTouch> touches) {
        return everySecond(touches, 1);
    }

    /** Repeats that scatter tell of a stand that was bumped; a single pair does not. */
    static List<String> unnoticed(int repeats) {
        return repeats > 1
                ? List.of()
                : List.of("A stand or part that was bumped between the touches: touch the first feature once more at"
                        + " the end, or repeat both.");
    }

    private static List<Touch> everySecond(List<MadeTouch> touches, int from) {
        return IntStream.range(0, touches.size())
                .filter(i -> i % 2 == from)
                .mapToObj(i -> touches.get(i).touch())
                .toList();
    }
}

package sweepbook.cli.proof;

import java.util.ArrayList;
import java.util.List;
import sweepbook.analysis.offset.Touch;
import sweepbook.analysis.offset.TouchNetwork.Tie;
import sweepbook.simulator.machine.Axis;
import sweepbook.simulator.machine.Pose;

/** Three pins, touched in turn three times from one stand: enough for one mistake to show. */
final class NetworkJob {
    private static final int PINS = 3;
    private static final int TOUCHES = 9;

    private final List<Thing> things = new ArrayList<>();
    private final List<Tie> ties = new ArrayList<>();

    NetworkJob(SetUp setUp) {
        for (int pin = 0; pin < PINS; pin++) {
            things.add(Kind.somePin(setUp, "pin " + (pin + 1)));
        }
        for (int i = 0; i < TOUCHES; i++) {
            Thing pin = things.get(i % PINS);
            Touch touch = pin.touch(Axis.X, Pose.HOME, 60 * i);
            ties.add(new Tie("touch " + (i + 1), "A", pin.name(), touch));
        }
    }

    List<Thing> things() {
        return things;
    }

    List<Tie> ties() {
        return ties;
    }
}

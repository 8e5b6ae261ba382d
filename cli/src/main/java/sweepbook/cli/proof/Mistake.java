package sweepbook.cli.proof;

import java.util.List;
import sweepbook.analysis.network.Residual;
import sweepbook.analysis.offset.BracketedPair;
import sweepbook.analysis.offset.Touch;
import sweepbook.analysis.offset.TouchNetwork;
import sweepbook.analysis.offset.TouchNetwork.Tie;
import sweepbook.analysis.uncertainty.Estimate;
import sweepbook.simulator.machine.Axis;
import sweepbook.simulator.machine.Pose;

/** A mistake of the person or the stand, planted into a set-up; is it told? */
public enum Mistake {
    MISTYPED_DIGIT("a digit mistyped") {
        @Override
        Tie make(Tie tie, SetUp setUp) {
            double digit_mm = Math.pow(10, setUp.random.nextInt(-2, 2)) * setUp.random.nextInt(3, 10);
            return moved(tie, setUp.random.nextBoolean() ? digit_mm : -digit_mm, 0);
        }
    },
    WRONG_SIGN("a sign mistyped") {
        @Override
        Tie make(Tie tie, SetUp setUp) {
            return moved(tie, -2 * tie.touch().position_mm(), 0);
        }
    },
    MISSED_CREST("a crest missed by 0.03 to 0.3 mm") {
        @Override
        Tie make(Tie tie, SetUp setUp) {
            double short_mm = setUp.between(0.03, 0.3);
            return moved(tie, 0, -short_mm * tie.touch().approach().pressing().sign());
        }
    },
    OTHER_FEATURE("the other pin touched") {
        @Override
        Tie make(Tie tie, SetUp setUp) {
            String other = tie.point().equals("pin 1") ? "pin 2" : "pin 1";
            return new Tie(tie.name(), tie.stand(), other, tie.touch());
        }
    },
    BUMPED_STAND("the stand bumped by 0.03 to 0.3 mm, out and back") {
        @Override
        Tie make(Tie tie, SetUp setUp) {
            throw new IllegalStateException("a bump moves all touches after it");
        }

        @Override
        boolean isNamed(SetUp setUp) {
            double bump_mm = setUp.between(0.03, 0.3);
            boolean early = setUp.random.nextBoolean();
            Thing one = Kind.somePin(setUp, "one");
            Thing two = Kind.somePin(setUp, "two");
            return new BracketedPair(
                            one.touchAfterCreep(Axis.X, Pose.HOME, 0, 0),
                            two.touchAfterCreep(Axis.X, Pose.HOME, 60, early ? bump_mm : 0),
                            one.touchAfterCreep(Axis.X, Pose.HOME, 120, bump_mm))
                    .moved(setUp.conditions);
        }
    };

    private final String words;

    Mistake(String words) {
        this.words = words;
    }

    public String words() {
        return words;
    }

    /** Whether the mistake is told on the set-up of a seed: the very touch, and no other. */
    public boolean isNamed(long seed) {
        return isNamed(new SetUp(seed, false));
    }

    boolean isNamed(SetUp setUp) {
        NetworkJob job = new NetworkJob(setUp);
        int wrong = setUp.random.nextInt(job.ties().size());
        job.ties().set(wrong, make(job.ties().get(wrong), setUp));
        return named(job, setUp).equals(List.of(job.ties().get(wrong).name()));
    }

    /** Whether touches are named on the set-up of a seed though no mistake was made. */
    public static boolean isFalseAlarm(long seed) {
        SetUp setUp = new SetUp(seed, false);
        return !named(new NetworkJob(setUp), setUp).isEmpty();
    }

    abstract Tie make(Tie tie, SetUp setUp);

    private static List<String> named(NetworkJob job, SetUp setUp) {
        return new TouchNetwork(job.ties(), setUp.conditions)
                .toDoAgain().stream()
                        .map(Residual::observation)
                        .map(observation -> observation.name())
                        .toList();
    }

    private static Tie moved(Tie tie, double position_mm, double reading_mm) {
        Touch touch = tie.touch();
        Estimate reading = touch.reading();
        Touch wrong = new Touch(
                touch.feature(),
                touch.approach(),
                touch.position_mm() + position_mm,
                new Estimate(reading.value() + reading_mm, reading.stdU(), reading.degreesOfFreedom()),
                touch.time_s());
        return new Tie(tie.name(), tie.stand(), tie.point(), wrong);
    }
}

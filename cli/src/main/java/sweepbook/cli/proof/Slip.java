package sweepbook.cli.proof;

import java.io.IOException;
import java.math.BigDecimal;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Optional;
import java.util.Random;
import sweepbook.acquisition.time.Clock;
import sweepbook.cli.book.BookEvent;
import sweepbook.cli.book.BookFile;
import sweepbook.cli.live.LiveView;
import sweepbook.cli.live.MeasureJob;
import sweepbook.cli.live.NotDeterminedException;
import sweepbook.cli.live.Person;
import sweepbook.cli.plan.Plans;
import sweepbook.simulator.job.JoineryScenario;
import sweepbook.simulator.job.VirtualTouch;

/** A slip at the machine, at a pair of touches that nothing repeats: do the clicks or the table tell it at once? */
public enum Slip {
    DIGIT_AT_THE_END("a digit mistyped after the jog") {
        @Override
        String atTheEnd(VirtualTouch made, Random random) {
            return wrongDigit(made.atTheEnd(), random);
        }
    },
    DIGIT_ON_THE_CREST("a digit mistyped on the crest") {
        @Override
        String onCrest(VirtualTouch made, Random random) {
            return wrongDigit(made.onCrest(), random);
        }
    },
    SIGN("a sign mistyped") {
        @Override
        String atTheEnd(VirtualTouch made, Random random) {
            return new BigDecimal(made.atTheEnd()).negate().toPlainString();
        }
    },
    SWAPPED("the two features swapped") {
        @Override
        int target(int touch) {
            return 1 - touch;
        }
    },
    NONE("no slip, but a doubt") {};

    private static final String PLAN = "spindle-to-drill";
    private static final int TOUCHES = 2;

    private final String words;

    Slip(String words) {
        this.words = words;
    }

    public String words() {
        return words;
    }

    int target(int touch) {
        return touch;
    }

    String onCrest(VirtualTouch made, Random random) {
        return made.onCrest();
    }

    String atTheEnd(VirtualTouch made, Random random) {
        return made.atTheEnd();
    }

    /** Whether it is told before the touch is kept, on the simulated machine of a seed. */
    public boolean isTold(long seed) throws IOException {
        Path folder = Files.createTempDirectory("sweepbook-slip-");
        Path file = folder.resolve("job.book");
        try (BookFile book = BookFile.begin(
                        file, Clock.system(), new BookEvent.Begun("proof", Plans.text(PLAN), "none", "", ""));
                Slipping person = new Slipping(seed)) {
            new MeasureJob(book, person.source, person).run();
            return person.isTold;
        } catch (NotDeterminedException e) {
            throw new IOException(e);
        } finally {
            try (var left = Files.list(folder)) {
                for (Path path : left.toList()) {
                    Files.delete(path);
                }
            }
            Files.delete(folder);
        }
    }

    /** Makes the two touches of the offset, and leaves at the first objection. */
    private final class Slipping implements Person {
        private final JobSource source;
        private final Random random;
        private VirtualTouch made;
        private int touch;
        private boolean isTold;

        Slipping(long seed) {
            source = new JobSource(JoineryScenario.of(seed));
            random = new Random(seed);
        }

        @Override
        public Optional<String> typed(Question question) {
            if (isTold) {
                return Optional.of("quit");
            }
            return switch (question) {
                case READY -> Optional.of(next());
                case SWEEPING -> Optional.empty();
                case POSITION_ON_CREST -> Optional.of(onCrest(made, random));
                // What the controller shows at the end holds once the hands are off.
                case POSITION_AT_THE_END -> source.isAllSeen() ? Optional.of(atTheEnd(made, random)) : Optional.empty();
                case POSITION_ON_TRAVEL -> throw new IllegalStateException("nothing travels here");
            };
        }

        private String next() {
            if (touch == TOUCHES) {
                return "quit";
            }
            made = source.touch(PLAN, target(touch++));
            return "";
        }

        @Override
        public void tell(String line) {}

        @Override
        public void show(LiveView view) {}

        @Override
        public void objection(String why) {
            isTold = true;
        }

        @Override
        public void close() {}
    }

    /** Any digit but the last, which is what one step of the display may differ by anyway, becomes another. */
    private static String wrongDigit(String shown, Random random) {
        StringBuilder text = new StringBuilder(shown);
        int place;
        do {
            place = random.nextInt(text.length() - 1);
        } while (!Character.isDigit(text.charAt(place)));
        int digit = text.charAt(place) - '0';
        text.setCharAt(place, (char) ('0' + (digit + 1 + random.nextInt(9)) % 10));
        return text.toString();
    }
}

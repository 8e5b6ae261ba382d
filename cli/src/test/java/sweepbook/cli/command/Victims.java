package sweepbook.cli.command;

import java.io.IOException;
import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import java.util.concurrent.ExecutionException;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;

/**
 * How many running programs are killed without warning, and when. A few by default; {@code .ci/kills} kills many, side by
 * side; {@code -Dkill.seed=...} for the same instants again.
 */
final class Victims {
    static final int KILLS = Integer.getInteger("kills", 2);
    static final long SEED = Long.getLong("kill.seed", new Random().nextLong());

    private Victims() {}

    /** Something that kills so many programs. */
    interface Killer {
        void kill(int kills, Random random) throws Exception;
    }

    /** Shares the kills among so many killers beside each other; the first that fails is thrown. */
    static void share(int beside, Killer killer) throws Exception {
        ExecutorService killers = Executors.newFixedThreadPool(beside);
        try {
            List<Future<?>> all = new ArrayList<>();
            for (int i = 0; i < beside; i++) {
                int share = KILLS / beside + (i < KILLS % beside ? 1 : 0);
                Random random = new Random(SEED + i);
                all.add(killers.submit(() -> {
                    killer.kill(share, random);
                    return null;
                }));
            }
            for (Future<?> one : all) {
                one.get();
            }
        } catch (ExecutionException e) {
            throw new AssertionError("seed " + SEED + ": " + e.getCause(), e.getCause());
        } finally {
            killers.shutdownNow();
        }
    }

    /** The program in a process of its own; what it says on either stream comes out of its standard output. */
    static Process start(String... args) throws IOException {
        return new ProcessBuilder(command(args)).redirectErrorStream(true).start();
    }

    /** What starts the program in a process of its own. */
    static List<String> command(String... args) {
        List<String> command = new ArrayList<>(List.of(
                ProcessHandle.current().info().command().orElseThrow(),
                "-XX:TieredStopAtLevel=1",
                "-XX:+UseSerialGC",
                "-Xshare:auto",
                "-cp",
                System.getProperty("java.class.path"),
                Sweepbook.class.getName()));
        command.addAll(List.of(args));
        return command;
    }
}

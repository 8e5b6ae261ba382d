package sweepbook.cli.demo;

import java.io.IOException;
import java.io.PrintWriter;
import java.util.Iterator;
import java.util.Optional;
import java.util.concurrent.ExecutionException;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import sweepbook.cli.book.Book.Station;
import sweepbook.cli.live.Cue;
import sweepbook.cli.live.LiveView;
import sweepbook.cli.live.Person;
import sweepbook.simulator.job.VirtualTouch;
import sweepbook.simulator.serve.IndicatorServer;

/**
 * The demonstration's technician: when told that everything is clear, has the virtual machine make the touch; when
 * asked for a position, types what its display shows.
 */
final class VirtualPerson implements Person {
    private static final double HOLD_S = 1;

    private final IndicatorServer indicator;
    private final WatchedSource source;
    private final Iterator<Station> stations;
    private final PrintWriter told;
    private final ExecutorService hands = Executors.newSingleThreadExecutor(work -> {
        Thread thread = new Thread(work, "virtual technician");
        thread.setDaemon(true);
        return thread;
    });
    private Future<VirtualTouch> touch;
    private Future<?> holding;
    private LiveView lastView = new LiveView("", new Cue("", false), "", 0, "", "");

    /** The stations are the touches of the plan in their order. */
    VirtualPerson(IndicatorServer indicator, WatchedSource source, Iterable<Station> stations, PrintWriter told) {
        this.indicator = indicator;
        this.source = source;
        this.stations = stations.iterator();
        this.told = told;
    }

    @Override
    public void tell(String line) {
        told.println(line);
        told.flush();
    }

    @Override
    public void show(LiveView view) {
        if (view.passes() > lastView.passes()) {
            tell("   " + view.reading() + "  " + view.state() + "; " + view.found());
        }
        lastView = view;
    }

    @Override
    public Optional<String> typed(Question question) throws IOException {
        return switch (question) {
            case READY -> begin();
            case SWEEPING -> holdOn();
            case POSITION_ON_CREST -> shown().map(made -> echo(made.axis() + " on the crest", made.onCrest()));
            case POSITION_ON_TRAVEL -> throw new IOException("the demonstration's plans travel along no axis");
            case POSITION_AT_THE_END ->
                allIsSeen() ? shown().map(made -> echo(made.axis().toString(), made.atTheEnd())) : Optional.empty();
        };
    }

    /** Everything is done and seen, and still it is not called stable: the hands stay off a while longer. */
    private Optional<String> holdOn() throws IOException {
        if (shown().isPresent() && allIsSeen() && (holding == null || holding.isDone())) {
            holding = hands.submit(() -> {
                indicator.hold(HOLD_S);
                return null;
            });
        }
        return Optional.empty();
    }

    /** Whether all that the indicator sent has been looked at: the hands are faster than the eyes. */
    private boolean allIsSeen() {
        return source.frames() >= indicator.taken();
    }

    private Optional<String> begin() {
        Station station = stations.next();
        touch = hands.submit(() -> indicator.touch(station.offset().name(), station.touch()));
        return Optional.of("");
    }

    /** The touch, once the machine stands still after it. */
    private Optional<VirtualTouch> shown() throws IOException {
        if (!touch.isDone()) {
            return Optional.empty();
        }
        try {
            return Optional.of(touch.get());
        } catch (ExecutionException e) {
            throw new IOException("the simulator failed: " + e.getCause(), e);
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
            throw new IOException("the demonstration was interrupted", e);
        }
    }

    private String echo(String what, String position) {
        tell("   types " + what + " = " + position);
        return position;
    }

    @Override
    public void objection(String why) throws IOException {
        throw new IOException("the virtual technician's position was not taken: " + why);
    }

    @Override
    public void close() {
        hands.shutdownNow();
    }
}

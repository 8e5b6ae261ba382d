package sweepbook.cli.live;

import java.util.ArrayList;
import java.util.List;
import org.jline.utils.Signals;

/**
 * Ctrl-C, or the end of the terminal, as a wish instead of a blow: whoever asks ends in good order. While this is open
 * the signals do nothing else.
 */
public final class StopSignal implements AutoCloseable {
    private static final List<String> SIGNALS = List.of("INT", "TERM", "HUP");

    private final List<Object> before = new ArrayList<>();
    private volatile boolean requested;

    public StopSignal() {
        for (String signal : SIGNALS) {
            before.add(Signals.register(signal, () -> requested = true));
        }
    }

    /** Whether the person wants the program to end. */
    public boolean requested() {
        return requested;
    }

    @Override
    public void close() {
        for (int i = 0; i < SIGNALS.size(); i++) {
            if (before.get(i) != null) {
                Signals.unregister(SIGNALS.get(i), before.get(i));
            }
        }
    }
}

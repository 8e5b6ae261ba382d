package sweepbook.cli.live;

import java.io.PrintWriter;

/**
 * One line that tells how things stand: on a terminal it is written over in place, elsewhere a new one comes now and
 * then. Used by one thread.
 */
public final class StatusLine {
    private static final double OVER_EVERY_S = 0.1;
    private static final double NEW_EVERY_S = 1;

    private final PrintWriter to;
    private final boolean terminal;
    private double next_s = Double.NEGATIVE_INFINITY;
    private int width;

    public StatusLine(PrintWriter to, boolean terminal) {
        this.to = to;
        this.terminal = terminal;
    }

    /** Whether the line is due again. */
    public boolean isDue(double now_s) {
        return now_s >= next_s;
    }

    public void show(double now_s, String text) {
        next_s = now_s + (terminal ? OVER_EVERY_S : NEW_EVERY_S);
        if (terminal) {
            to.print("\r" + text + " ".repeat(Math.max(0, width - text.length())));
            width = text.length();
        } else {
            to.println(text);
        }
        to.flush();
    }

    /** A line that stays, above the one that is written over. */
    public void say(String text) {
        if (terminal) {
            to.print("\r" + " ".repeat(width) + "\r");
            width = 0;
        }
        to.println(text);
        to.flush();
    }

    /** Leaves the last line standing. */
    public void end() {
        if (terminal && width > 0) {
            to.println();
        }
        to.flush();
    }
}

package sweepbook.simulator.indicator;

import java.util.List;
import java.util.Random;

/** A trouble between the plunger and the one who records: it changes, drops or delays what was sent. */
public interface LinkFault {
    List<Sample> on(List<Sample> sent, Random random);
}

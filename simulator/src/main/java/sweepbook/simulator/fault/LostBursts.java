package sweepbook.simulator.fault;

import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import sweepbook.simulator.indicator.LinkFault;
import sweepbook.simulator.indicator.Sample;

/**
 * Runs of readings never arrive.
 *
 * @param share how many of the readings
 * @param longest greatest length of a run
 */
public record LostBursts(double share, int longest) implements LinkFault {
    @Override
    public List<Sample> on(List<Sample> sent, Random random) {
        double start = share * 2 / (1 + longest);
        List<Sample> arrived = new ArrayList<>();
        int losing = 0;
        for (Sample sample : sent) {
            if (losing == 0 && random.nextDouble() < start) {
                losing = 1 + random.nextInt(longest);
            }
            if (losing > 0) {
                losing--;
            } else {
                arrived.add(sample);
            }
        }
        return arrived;
    }
}

package sweepbook.simulator.fault;

import java.util.List;
import java.util.Random;
import sweepbook.simulator.indicator.Display;
import sweepbook.simulator.indicator.LinkFault;
import sweepbook.simulator.indicator.Sample;

/**
 * Single readings are off by anything up to the whole range.
 *
 * @param share how many of the readings
 */
public record Spikes(double share, Display display, double range_mm) implements LinkFault {
    @Override
    public List<Sample> on(List<Sample> sent, Random random) {
        return sent.stream()
                .map(sample -> random.nextDouble() < share ? spiked(sample, random) : sample)
                .toList();
    }

    private Sample spiked(Sample sample, Random random) {
        // The cube makes small and great spikes alike frequent.
        double even = 2 * random.nextDouble() - 1;
        double off_mm = range_mm * even * even * even;
        return sample.replaced(display.shown_mm(sample.reading().reading_mm() + off_mm));
    }
}

package sweepbook.simulator.fault;

import java.util.List;
import java.util.Random;
import sweepbook.simulator.indicator.LinkFault;
import sweepbook.simulator.indicator.Sample;

/** The adapter hands over what it has only when its timer runs out: readings arrive in groups that share a time. */
public record UsbLatency(double timer_s) implements LinkFault {
    @Override
    public List<Sample> on(List<Sample> sent, Random random) {
        double phase_s = timer_s * random.nextDouble();
        return sent.stream()
                .map(sample ->
                        sample.stamped(Math.ceil((sample.reading().time_s() - phase_s) / timer_s) * timer_s + phase_s))
                .toList();
    }
}

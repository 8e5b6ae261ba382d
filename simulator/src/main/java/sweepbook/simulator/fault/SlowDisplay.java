package sweepbook.simulator.fault;

import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import sweepbook.simulator.indicator.LinkFault;
import sweepbook.simulator.indicator.Sample;

/** The indicator measures less often than it sends: each value is sent several times. */
public record SlowDisplay(int repeats) implements LinkFault {
    @Override
    public List<Sample> on(List<Sample> sent, Random random) {
        int phase = random.nextInt(repeats);
        List<Sample> shown = new ArrayList<>(sent.size());
        double held_mm = Double.NaN;
        for (int i = 0; i < sent.size(); i++) {
            boolean fresh = i == 0 || (i + phase) % repeats == 0;
            if (fresh) {
                held_mm = sent.get(i).reading().reading_mm();
            }
            shown.add(fresh ? sent.get(i) : sent.get(i).replaced(held_mm));
        }
        return shown;
    }
}

package sweepbook.simulator.job;

import java.math.BigDecimal;
import java.math.RoundingMode;
import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import sweepbook.acquisition.trace.LengthUnit;
import sweepbook.acquisition.trace.Reading;
import sweepbook.acquisition.trace.Trace;
import sweepbook.simulator.fault.BumpedStand;
import sweepbook.simulator.indicator.Disturbance;
import sweepbook.simulator.indicator.IndicatorSettings;
import sweepbook.simulator.indicator.VirtualIndicator;
import sweepbook.simulator.machine.Axis;
import sweepbook.simulator.machine.Pose;
import sweepbook.simulator.machine.VirtualMachine;

/**
 * A set-up job in virtual time: ask for a touch, and the virtual technician makes it and tells what was read and shown. The
 * same seed and the same touches in the same order give the same bits. Used by one thread at a time.
 */
public final class VirtualJob {
    private final WorkPlace place;
    private final List<SoughtOffset> offsets;
    private final Random random;
    private final VirtualMachine machine;
    private final List<Disturbance> disturbances;
    private SoughtOffset measured;
    private VirtualIndicator indicator;
    private TouchScript last;
    private long readings;

    VirtualJob(WorkPlace place, List<SoughtOffset> offsets, Pose start, Random random) {
        this.place = place;
        this.offsets = List.copyOf(offsets);
        this.random = random;
        this.machine = new VirtualMachine(start, place.shownStep_mm(), place.backlash_mm());
        this.disturbances = new ArrayList<>(place.disturbances());
        setUp(this.offsets.get(0));
    }

    public List<SoughtOffset> offsets() {
        return offsets;
    }

    public SoughtOffset offset(String name) {
        return offsets.stream()
                .filter(offset -> offset.name().equals(name))
                .findFirst()
                .orElseThrow(() -> new IllegalArgumentException("no offset '" + name + "' in this job; there are "
                        + offsets.stream().map(SoughtOffset::name).toList()));
    }

    /** Half the difference, or the difference, that the touches of this offset should give. */
    public double trueOffset_mm(String name) {
        return offset(name).truth_mm();
    }

    public IndicatorSettings indicatorSettings() {
        return place.indicator();
    }

    /** The unit in which the controller shows positions. */
    public LengthUnit machineUnit() {
        return place.unit();
    }

    /** What the controller shows for an axis now, in the machine's unit. */
    public String shownPosition(Axis axis) {
        return new BigDecimal(place.unit().fromMm(machine.shown(axis)))
                .setScale(place.shownDecimals(), RoundingMode.HALF_EVEN)
                .toPlainString();
    }

    /** Makes a touch, counted from 0; it can be made again. */
    public VirtualTouch touch(String offsetName, int touch) {
        return touch(offsetName, touch, offset(offsetName).touches().get(touch));
    }

    /** Touches the first feature of an offset with the head swivelled as nothing in the job asks for. */
    public VirtualTouch touchSwivelled(String offsetName, double swivel_deg) {
        String feature = offset(offsetName).touches().get(0).feature();
        return touch(offsetName, 0, new SoughtOffset.Target(feature, swivel_deg));
    }

    private VirtualTouch touch(String offsetName, int touch, SoughtOffset.Target target) {
        SoughtOffset offset = offset(offsetName);
        Trace.Builder trace = new Trace.Builder(
                place.indicator().display().unit(), place.indicator().display().resolution_mm());
        TouchScript script = new TouchScript(place, machine, offset, target, random);
        if (last != null) {
            last.backOff();
        }
        readInto(trace);
        // The stand is moved, if at all, while the plunger hangs free.
        setUp(offset);
        script.approach();
        script.sweep();
        String onCrest = shownPosition(offset.axis());
        double highSpot_mm = place.indicator().level_mm(script.crestPress_mm() + shift_mm());
        script.jogIn();
        readInto(trace);
        last = script;
        return new VirtualTouch(
                offsetName,
                touch,
                trace.build(),
                offset.axis(),
                onCrest,
                shownPosition(offset.axis()),
                highSpot_mm,
                indicator.level_mm(machine.now_s(), machine.pose()));
    }

    /** Somebody leans on the stand: from now on its contact is pushed in further by this much, or less far. */
    public void bumpStand(double step_mm) {
        disturbances.add(new BumpedStand(machine.now_s(), step_mm));
        setUp(measured);
    }

    /** The next reading while nothing moves. */
    public Reading standing() {
        double time_s = nextReading_s();
        machine.hold(Math.max(0, time_s - machine.now_s()));
        readings++;
        return indicator.read(time_s, machine).reading();
    }

    private void readInto(Trace.Builder trace) {
        List<Reading> read = new ArrayList<>();
        for (double time_s = nextReading_s(); time_s <= machine.now_s(); time_s = nextReading_s()) {
            read.add(indicator.read(time_s, machine).reading());
            readings++;
        }
        read.forEach(trace::add);
    }

    /** The indicator looks at its plunger steadily, whatever the machine does; its clock counts microseconds. */
    private double nextReading_s() {
        return Math.rint(1e6 * readings * place.indicator().interval_s()) / 1e6;
    }

    private double shift_mm() {
        return indicator.shift_mm(machine.now_s(), machine.pose());
    }

    private void setUp(SoughtOffset offset) {
        measured = offset;
        indicator = new VirtualIndicator(place.indicator(), offset.contact(), place.features(), disturbances, random);
    }
}

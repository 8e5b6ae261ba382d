package sweepbook.analysis.offset;

import java.util.List;
import java.util.Optional;
import sweepbook.analysis.uncertainty.Budget;
import sweepbook.analysis.uncertainty.Estimate;

/**
 * How a feature leans against an axis along which the machine travels: touched at two ends, or all along. Spots that
 * are marked on the part and brought round to the contact at both ends take the part's own form out: each has a
 * height of its own, and only the lean is common to all.
 */
public final class Alignment {
    /**
     * @param travel_mm what the machine shows of the axis along which it travels
     * @param spot the place on the part; touches of one spot share its form error. The same for all where the contact
     *     just runs along the part
     */
    public record Station(double travel_mm, String spot, Touch touch) {}

    private final List<Station> stations;
    private final List<String> spots;
    private final boolean isTurnedOver;
    private final FittedTouches line;

    /** At least two stations, and no spot on its own. */
    public Alignment(List<Station> stations) {
        this(stations, false);
    }

    /**
     * A part that is touched all along, then all along again after half a turn about its own length, as a bar in a spindle:
     * its two sides are the two spots. What it leans by itself shows the other way after the turn, and drops out.
     */
    public static Alignment turnedOver(List<Station> stations) {
        return new Alignment(stations, true);
    }

    private Alignment(List<Station> stations, boolean isTurnedOver) {
        this.isTurnedOver = isTurnedOver;
        this.stations = List.copyOf(stations);
        this.spots = stations.stream().map(Station::spot).distinct().toList();
        for (String spot : spots) {
            double[] travels_mm = stations.stream()
                    .filter(station -> station.spot().equals(spot))
                    .mapToDouble(Station::travel_mm)
                    .distinct()
                    .toArray();
            if (travels_mm.length < 2) {
                throw new IllegalArgumentException(
                        "spot '" + spot + "' was touched at one place of the travel only: bring it to both ends");
            }
        }
        if (isTurnedOver && spots.size() != 2) {
            throw new IllegalArgumentException(
                    "a part that is turned over has two sides, not " + spots.size() + ": name each as a spot");
        }
        this.line = new FittedTouches(
                stations.stream().map(Station::touch).toList(),
                stations.stream().map(this::row).toArray(double[][]::new));
    }

    private double[] row(Station station) {
        double[] row = new double[slopeColumn() + 1];
        int spot = spots.indexOf(station.spot());
        row[spot] = 1;
        double travelled_mm = station.travel_mm() - stations.get(0).travel_mm();
        row[slopeColumn()] = travelled_mm;
        if (isTurnedOver) {
            row[spots.size()] = spot == 0 ? travelled_mm : -travelled_mm;
        }
        return row;
    }

    private int slopeColumn() {
        return isTurnedOver ? spots.size() + 1 : spots.size();
    }

    /** Change of the touched surface for a millimetre of travel, as the person sees it at the needle. */
    public Budget slope(TouchConditions conditions) {
        return line.parameter(slopeColumn(), conditions.withoutTemperature());
    }

    /** The same over a length: parallelism of the travel to the feature, in millimetres. */
    public Budget over(double length_mm, TouchConditions conditions) {
        return slope(conditions).times(length_mm);
    }

    /**
     * The angle from the plus direction of the travel axis to the feature, positive towards plus of the measured axis,
     * in degrees. With the indicator on the table the head carries the feature past it backwards, so that it leans
     * against the slope.
     */
    public Budget lean_deg(TouchConditions conditions) {
        Budget slope = slope(conditions);
        int sense = -stations.get(0).touch().approach().stand().sign();
        double perSlope_deg = Math.toDegrees(1 / (1 + slope.value() * slope.value()));
        return slope.times(sense * perSlope_deg).shiftedTo(sense * Angles.deg(slope.value()));
    }

    /** By how much the rotary axis must turn from where it stands, in degrees of what it shows. */
    public Budget correction_deg(Turning turning, TouchConditions conditions) {
        return lean_deg(conditions).times(-turning.sign());
    }

    /**
     * Greatest less least distance of the touches from the line, in millimetres, with the uncertainty that the two touches
     * give it; empty where there is none to spare. What chance adds to a range is in it: read it as a bound.
     */
    public Optional<Estimate> straightness(TouchConditions conditions) {
        return line.fit(conditions).degreesOfFreedom() > 0 ? Optional.of(line.spread(conditions)) : Optional.empty();
    }

    /** What the budget lacks or the person should look at, in plain words. */
    public List<String> warnings(TouchConditions conditions) {
        return line.warnings(conditions);
    }
}

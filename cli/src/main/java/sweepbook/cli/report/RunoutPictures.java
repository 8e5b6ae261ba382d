package sweepbook.cli.report;

import java.util.List;
import sweepbook.acquisition.trace.LengthUnit;
import sweepbook.analysis.runout.Harmonic;
import sweepbook.analysis.runout.Runout;
import sweepbook.analysis.runout.RunoutSettings;
import sweepbook.analysis.runout.fit.Profile;

/** A turned part drawn: about its centre, unrolled, and by its harmonics. */
final class RunoutPictures {
    private static final int STEPS = 720;
    private static final int MOST_BARS = 30;

    private RunoutPictures() {}

    static String polar(String id, Runout runout, LengthUnit unit, RunoutSettings settings, Surface surface) {
        Profile form = runout.profile().filtered(settings.cutoff_upr()).aboutItsCentre();
        double most = 1e-12;
        for (double v : form.sampled(STEPS)) {
            most = Math.max(most, Math.abs(v));
        }
        double step = Ticks.between(0, unit.fromMm(most), 3).step().doubleValue();
        PolarPicture picture = new PolarPicture(
                id + "-polar",
                "Polar picture",
                surface.departure(),
                most,
                unit.toMm(step),
                "ring " + Figures.length(unit.toMm(step), unit));
        picture.curve(form::at, Ink.FIRST);
        if (runout.highSpotAngle_deg().isFound()) {
            picture.pointer(runout.profile().phase_rad(1), "high spot", Ink.SECOND);
        }
        return picture.svg();
    }

    static String unrolled(String id, Runout runout, LengthUnit unit) {
        double[] angle = runout.unrolled().angle_deg();
        double[] departure = runout.unrolled().departure_mm();
        double[] curve = runout.profile().sampled(STEPS);
        double mean = runout.profile().mean_mm();
        double least = Double.POSITIVE_INFINITY;
        double greatest = Double.NEGATIVE_INFINITY;
        for (double v : curve) {
            least = Math.min(least, v - mean);
            greatest = Math.max(greatest, v - mean);
        }
        // A spike or two must not flatten the picture: it shows the profile with the noise about it.
        double room = 4 * runout.noise_mm();
        Picture picture = new Picture(
                id + "-unrolled",
                "Unrolled picture",
                "All readings of all turns against the angle, and the profile through them",
                PictureAxis.ofAngle("angle, degrees", 0, 360),
                PictureAxis.around(
                        "departure, " + unit.symbol(),
                        unit.fromMm(least - room),
                        unit.fromMm(greatest + room),
                        unit.fromMm(2 * runout.step_mm())),
                List.of());
        picture.dots(angle.length, i -> folded(angle[i]), i -> unit.fromMm(departure[i]), Ink.FAINT);
        picture.line(
                STEPS + 1,
                i -> 360.0 * i / STEPS,
                i -> unit.fromMm(curve[i % STEPS] - mean),
                Double.POSITIVE_INFINITY,
                Ink.FIRST);
        return picture.svg();
    }

    private static double folded(double angle_deg) {
        return angle_deg - 360 * Math.floor(angle_deg / 360);
    }

    static String harmonic(String id, Runout runout, LengthUnit unit) {
        List<Harmonic> harmonics = runout.harmonics()
                .subList(0, Math.min(MOST_BARS, runout.harmonics().size()));
        double most = harmonics.stream()
                .filter(h -> h.upr() > 1)
                .mapToDouble(h -> h.amplitude().value())
                .max()
                .orElse(runout.eccentricity().value());
        Picture picture = new Picture(
                id + "-harmonic",
                "Harmonic picture",
                "Amplitude against undulations per revolution, from two on",
                PictureAxis.of("undulations per revolution", 0.5, Math.max(2, harmonics.size()) + 0.5),
                PictureAxis.of("amplitude, " + unit.symbol(), 0, unit.fromMm(Math.max(most, 1e-9)) * 1.1),
                List.of());
        for (Harmonic h : harmonics) {
            if (h.upr() > 1 && h.amplitude().value() > 0) {
                picture.distance(h.upr(), 0, unit.fromMm(h.amplitude().value()), Ink.FIRST, "");
            }
        }
        return picture.svg();
    }
}

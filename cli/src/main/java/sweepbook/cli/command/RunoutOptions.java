package sweepbook.cli.command;

import java.io.IOException;
import java.nio.file.Path;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.function.Function;
import picocli.CommandLine.ArgGroup;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.ParameterException;
import picocli.CommandLine.Spec;
import sweepbook.acquisition.trace.LengthUnit;
import sweepbook.analysis.offset.CalibrationTable;
import sweepbook.analysis.offset.IndicatorLimits;
import sweepbook.analysis.runout.RunoutSettings;
import sweepbook.analysis.runout.angle.MarkedReading;
import sweepbook.analysis.runout.circle.ReferenceCircle;
import sweepbook.analysis.uncertainty.Tolerance;
import sweepbook.cli.plan.Plan;
import sweepbook.cli.plan.PlanFile;
import sweepbook.cli.plan.Plans;
import sweepbook.cli.report.Surface;

/** How a turning is looked at: its marks, its filter, the indicator's own errors, and the limit. */
final class RunoutOptions {
    @Spec(Spec.Target.MIXEE)
    private CommandSpec spec;

    @Option(
            names = "--marks-per-turn",
            paramLabel = "N",
            defaultValue = "1",
            description = "Witness marks on one turn, equally spaced (default: ${DEFAULT-VALUE}).")
    private int marksPerTurn;

    @Option(
            names = "--mark-on",
            paramLabel = "nearest|next",
            description = "Which reading carries a mark: the one nearest to its passing, or the next after it. Not"
                    + " said, angles count as from the nearest, and their uncertainty allows for the other.")
    private Optional<MarkOn> markOn = Optional.empty();

    private enum MarkOn {
        nearest(MarkedReading.NEAREST),
        next(MarkedReading.NEXT);

        private final MarkedReading marked;

        MarkOn(MarkedReading marked) {
            this.marked = marked;
        }
    }

    @Option(
            names = "--order",
            paramLabel = "N",
            defaultValue = "50",
            description = "Highest undulations per revolution looked at (default: ${DEFAULT-VALUE}).")
    private int order;

    @Option(
            names = "--cutoff",
            paramLabel = "UPR",
            defaultValue = "50",
            description = "Undulations per revolution of which the roundness filter passes half"
                    + " (Gaussian; default: ${DEFAULT-VALUE}).")
    private double cutoff_upr;

    @Option(
            names = "--circle",
            paramLabel = "LSCI|MZCI|MCCI|MICI",
            defaultValue = "LSCI",
            description = "Reference circle of the out-of-roundness: least squares, minimum zone,"
                    + " minimum circumscribed, maximum inscribed (default: ${DEFAULT-VALUE}).")
    private String circle;

    @Option(
            names = "--surface",
            paramLabel = "round|face",
            defaultValue = "round",
            description = "What the contact rides on: a round, or the face of a flange, disc or blade, along the axis"
                    + " (default: ${DEFAULT-VALUE}).")
    private String surface;

    @Option(
            names = "--fim-limit",
            split = ",",
            paramLabel = "[LEAST,]MOST",
            description = "Most full indicator movement that is allowed, and the least where there is one, in the unit"
                    + " of the traces: adds the decision (ISO 14253-1) and, for several files, the capability.")
    private List<Double> limits = List.of();

    /** Where the indicator's own errors are stated. */
    static final class Stated {
        @Option(
                names = "--plan",
                paramLabel = "PLAN",
                description =
                        "The plan that states the indicator's calibration, permissible error, hysteresis, tilt and"
                                + " lever.")
        private String plan;

        @Option(
                names = "--permissible-error",
                paramLabel = "LENGTH",
                description = "The indicator's maximum permissible error, as plus or minus, in the unit of the traces.")
        private Double permissibleError;
    }

    @ArgGroup
    private Stated stated = new Stated();

    Surface surface() {
        return named(
                "--surface", surface, List.of(Surface.values()), s -> s.name().toLowerCase(Locale.ROOT));
    }

    /** The plan that states the indicator's errors, where one is named. */
    Optional<Plan> plan() throws IOException {
        return stated.plan == null
                ? Optional.empty()
                : Optional.of(PlanFile.parse(stated.plan, Plans.text(stated.plan)));
    }

    /** For a trace in that unit. */
    RunoutSettings settings(LengthUnit unit, Optional<Plan> plan) {
        ReferenceCircle reference =
                named("--circle", circle, List.of(ReferenceCircle.values()), ReferenceCircle::letters);
        Optional<CalibrationTable> calibration = plan.map(Plan::indicator).flatMap(Plan.Indicator::calibration);
        try {
            return new RunoutSettings(
                    marksPerTurn,
                    markOn.map(on -> on.marked).orElse(MarkedReading.NOT_SAID),
                    order,
                    cutoff_upr,
                    reference,
                    Double.NaN,
                    plan.map(stating -> stating.conditions().indicator()).orElse(permissible(unit)),
                    calibration);
        } catch (IllegalArgumentException e) {
            throw new ParameterException(spec.commandLine(), e.getMessage());
        }
    }

    private IndicatorLimits permissible(LengthUnit unit) {
        return stated.permissibleError == null
                ? IndicatorLimits.NOT_STATED
                : IndicatorLimits.NOT_STATED.withPermissibleError(unit.toMm(stated.permissibleError));
    }

    /** In millimetres, where a limit is named. */
    Optional<Tolerance> tolerance(LengthUnit unit) throws UserFault {
        if (limits.isEmpty()) {
            return Optional.empty();
        }
        double most = limits.get(limits.size() - 1);
        double least = limits.size() == 1 ? Double.NEGATIVE_INFINITY : limits.get(0);
        if (limits.size() > 2 || !(most > 0) || !(least < most)) {
            throw UserFault.wrongUse("--fim-limit " + limits + ": say the most, above zero, or the least and the most");
        }
        return Optional.of(new Tolerance(unit.toMm(least), unit.toMm(most)));
    }

    /** A length that is typed for all traces would mean two things where their units differ. */
    void checkSameUnit(Path file, LengthUnit unit, LengthUnit before) throws UserFault {
        boolean isTyped = !limits.isEmpty() || stated.permissibleError != null;
        if (isTyped && unit != before) {
            throw UserFault.wrongUse(file + ": its unit is not that of the files before it, so that "
                    + (limits.isEmpty() ? "--permissible-error " + stated.permissibleError : "--fim-limit " + limits)
                    + " would mean two things; look at one unit at a time");
        }
    }

    private <K> K named(String option, String word, List<K> known, Function<K, String> name) {
        return known.stream()
                .filter(one -> name.apply(one).equalsIgnoreCase(word))
                .findFirst()
                .orElseThrow(() -> new ParameterException(
                        spec.commandLine(),
                        option + " " + word + " is not known: say "
                                + String.join(", ", known.stream().map(name).toList())));
    }
}

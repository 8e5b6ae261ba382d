package sweepbook.cli.command;

import java.io.IOException;
import java.io.PrintWriter;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.time.Duration;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;
import sweepbook.acquisition.learn.Hints;
import sweepbook.acquisition.learn.Learned;
import sweepbook.acquisition.learn.LineSearch;
import sweepbook.acquisition.link.LinkAddress;
import sweepbook.acquisition.link.Links;
import sweepbook.acquisition.time.Clock;
import sweepbook.acquisition.trace.LengthUnit;
import sweepbook.acquisition.wire.Decoded;
import sweepbook.acquisition.wire.Scale;

/** Proposes a profile for an indicator that nobody described. */
@Command(
        name = "learn",
        description = {
            "Find out how an indicator speaks: speed, parity and frames.",
            "Move its plunger up and down all the while. The profile goes to standard output or to a file."
        })
final class LearnCommand implements Callable<Integer> {
    private static final int SHOWN = 10;

    @Spec
    private CommandSpec spec;

    @Parameters(paramLabel = "LINK", description = "serial:PORT, tcp:HOST:PORT, replay:FILE or console:.")
    private String link;

    @Option(names = "--unit", paramLabel = "mm|in", description = "What the display shows, where frames do not say.")
    private Optional<String> unit;

    @Option(
            names = "--number",
            paramLabel = "N",
            description = "Which changing number of a line is the reading, where there are several.")
    private Optional<Integer> number;

    @Option(
            names = "--channel",
            paramLabel = "C",
            description = "The address of the wanted indicator where several share a line, or any.")
    private Optional<String> channel;

    @Option(
            names = "--decimal-mark",
            paramLabel = "point|comma",
            description = "What stands in front of decimals, where a comma could also stand between numbers.")
    private Optional<String> decimalMark;

    @Option(
            names = "--seconds",
            paramLabel = "S",
            defaultValue = "3",
            description = "How long to listen at each speed (default: ${DEFAULT-VALUE}).")
    private double seconds;

    @Option(names = "--out", paramLabel = "FILE.json", description = "Write the profile here.")
    private Optional<Path> out;

    @Override
    public Integer call() throws IOException, UserFault {
        PrintWriter err = spec.commandLine().getErr();
        LineSearch search = new LineSearch(
                LinkAddress.parse(link),
                Links::open,
                Clock.system(),
                Duration.ofMillis(Math.round(seconds * 1e3)),
                new Hints(shownUnit(), number, channel, mark()),
                line -> {
                    err.println(line);
                    err.flush();
                });
        Learned learned = search.search();
        if (learned instanceof Learned.Undecided undecided) {
            throw new UserFault(ExitStatus.NOT_DETERMINED, link + ": " + undecided.why());
        }
        if (learned instanceof Learned.Refused refused) {
            throw new UserFault(ExitStatus.NOT_DETERMINED, link + ": " + refused.why());
        }
        Learned.Proposed proposed = (Learned.Proposed) learned;
        show(proposed, err);
        if (out.isPresent()) {
            Files.writeString(out.get(), proposed.json(), StandardOpenOption.CREATE_NEW);
        } else {
            spec.commandLine().getOut().print(proposed.json());
            spec.commandLine().getOut().flush();
        }
        return ExitStatus.DONE;
    }

    private Optional<LengthUnit> shownUnit() throws UserFault {
        try {
            return unit.map(LengthUnit::of);
        } catch (IllegalArgumentException e) {
            throw UserFault.wrongUse("--unit: " + e.getMessage());
        }
    }

    private Optional<Character> mark() throws UserFault {
        if (decimalMark.isEmpty()) {
            return Optional.empty();
        }
        return switch (decimalMark.get()) {
            case "point" -> Optional.of('.');
            case "comma" -> Optional.of(',');
            default -> throw UserFault.wrongUse("--decimal-mark: '" + decimalMark.get() + "' must be point or comma");
        };
    }

    private static void show(Learned.Proposed proposed, PrintWriter err) {
        List<Decoded.Value> values = proposed.values();
        err.printf(
                Locale.ROOT,
                "'%s' reads %.0f %% of what came: %d readings. Compare these with the display:%n",
                proposed.profile().name(),
                100 * proposed.confidence(),
                values.size());
        int every = Math.max(1, values.size() / SHOWN);
        for (int i = 0, shown = 0; i < values.size() && shown < SHOWN; i += every, shown++) {
            Scale scale = values.get(i).scale();
            err.printf(
                    Locale.ROOT,
                    "  %+." + scale.decimals() + "f %s%n",
                    values.get(i).value(),
                    scale.unit().symbol());
        }
    }
}

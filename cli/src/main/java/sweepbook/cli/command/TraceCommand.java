package sweepbook.cli.command;

import java.io.IOException;
import java.io.PrintWriter;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.concurrent.Callable;
import java.util.function.BooleanSupplier;
import picocli.CommandLine.ArgGroup;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;
import sweepbook.acquisition.link.LinkAddress;
import sweepbook.acquisition.link.LinkException;
import sweepbook.acquisition.source.ReadingSource;
import sweepbook.acquisition.source.ReadingSources;
import sweepbook.acquisition.time.Clock;
import sweepbook.acquisition.wire.IndicatorProfile;
import sweepbook.acquisition.wire.Profiles;
import sweepbook.cli.live.MarkKey;
import sweepbook.cli.live.StatusLine;
import sweepbook.cli.live.StopSignal;
import sweepbook.cli.live.TraceRecorder;
import sweepbook.cli.live.TypedAngles;
import sweepbook.cli.live.TypedLines;
import sweepbook.cli.live.Witness;

/** Records what an indicator sends to a trace file. */
@Command(name = "trace", description = "Record the readings of an indicator to a trace file (CSV).")
final class TraceCommand implements Callable<Integer> {
    /** The names to choose from. */
    static final class BundledProfiles extends ArrayList<String> {
        BundledProfiles() {
            super(Profiles.BUNDLED);
        }
    }

    @Spec
    private CommandSpec spec;

    @Parameters(
            paramLabel = "LINK",
            description = "Where the indicator is: serial:PORT, tcp:HOST:PORT, replay:FILE or console:.")
    private String link;

    @Option(
            names = "--profile",
            paramLabel = "PROFILE",
            completionCandidates = BundledProfiles.class,
            description = "What its bytes mean: a profile file, or one that comes with the program:%n"
                    + "${COMPLETION-CANDIDATES}.%nThe replay of a trace needs none.")
    private String profile;

    @Option(names = "--out", required = true, paramLabel = "FILE.csv", description = "The trace file to write.")
    private Path out;

    @Option(names = "--seconds", paramLabel = "S", description = "End after so many seconds; else on Ctrl-C.")
    private Double seconds;

    @Mixin
    private Patience patience = new Patience();

    /** What the person tells of the readings. */
    private static final class Told {
        @Option(names = "--mark-key", description = "Enter marks that a witness mark of a turning part passes.")
        private boolean markKey;

        @Option(
                names = "--typed-angles",
                description = "The part stands at each angle that is typed, in degrees; an empty line ends.")
        private boolean typedAngles;
    }

    @ArgGroup
    private Told told = new Told();

    @Override
    public Integer call() throws IOException, UserFault {
        if (seconds != null && !(seconds > 0)) {
            throw UserFault.wrongUse("--seconds " + seconds + ": must be more than 0");
        }
        LinkAddress address = LinkAddress.parse(link);
        Optional<IndicatorProfile> wire = profile == null ? Optional.empty() : Optional.of(Profiles.load(profile));
        Clock clock = Clock.system();
        PrintWriter err = spec.commandLine().getErr();
        try (StopSignal stop = new StopSignal();
                ReadingSource source = ReadingSources.open(address, wire, clock, patience.duration())) {
            StatusLine status = new StatusLine(err, System.console() != null);
            TraceRecorder recorder =
                    new TraceRecorder(source, out, clock, status, witness(address, source, clock, status));
            double start_s = clock.monotonic_s();
            BooleanSupplier timeIsUp = () -> seconds != null
                    && seconds
                            <= (address instanceof LinkAddress.Replay
                                    ? recorder.span_s()
                                    : clock.monotonic_s() - start_s);
            try {
                recorder.record(comments(clock, wire), () -> stop.requested() || timeIsUp.getAsBoolean());
            } catch (IOException e) {
                throw kept(e, recorder);
            }
            return summary(recorder);
        }
    }

    private Witness witness(LinkAddress address, ReadingSource source, Clock clock, StatusLine status)
            throws UserFault {
        if (!told.markKey && !told.typedAngles) {
            return Witness.none(source);
        }
        if (address instanceof LinkAddress.Console) {
            throw UserFault.wrongUse("the keyboard cannot be both the link and what is typed; read the indicator from"
                    + " serial: or tcp:");
        }
        TypedLines typed = new TypedLines(System.in, clock);
        if (told.markKey) {
            return new MarkKey(typed::next);
        }
        status.say("let the part rest, type the angle it stands at in degrees, Enter; an empty line ends");
        return new TypedAngles(typed::next, status::say);
    }

    private List<String> comments(Clock clock, Optional<IndicatorProfile> wire) {
        List<String> comments = new ArrayList<>();
        comments.add("recorded " + clock.wall() + " from " + link);
        wire.ifPresent(known -> comments.add("profile " + known.name()));
        return comments;
    }

    /** The failure, with what it leaves on disk. */
    private UserFault kept(IOException e, TraceRecorder recorder) {
        int status = e instanceof LinkException lost && lost.isLost() ? ExitStatus.LINK_LOST : ExitStatus.WRONG_USE;
        String kept = recorder.readings() == 0 ? "" : "; " + recorder.readings() + " readings before it are in " + out;
        return new UserFault(status, e.getMessage() + kept);
    }

    private int summary(TraceRecorder recorder) throws UserFault {
        if (recorder.readings() == 0) {
            if (recorder.dropped() > 0) {
                throw new UserFault(
                        ExitStatus.WRONG_USE,
                        link + ": bytes came but none of them was a reading; check speed, parity and profile ("
                                + recorder.notes() + " shows them)");
            }
            throw new UserFault(
                    ExitStatus.NOT_DETERMINED,
                    link + ": no reading came; is the indicator on, and does it send by itself or on a button?");
        }
        String notes = Files.exists(recorder.notes()) ? "; see " + recorder.notes() : "";
        spec.commandLine()
                .getOut()
                .printf(
                        Locale.ROOT,
                        "%s: %d readings in %.1f s, %.1f a second, %d frames dropped%s%n",
                        out,
                        recorder.readings(),
                        recorder.span_s(),
                        recorder.rate_per_s(),
                        recorder.dropped(),
                        notes);
        return ExitStatus.DONE;
    }
}

package sweepbook.cli.command;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStreamReader;
import java.io.PrintWriter;
import java.net.BindException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Optional;
import java.util.concurrent.Callable;
import picocli.CommandLine.ArgGroup;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Spec;
import sweepbook.acquisition.wire.IndicatorProfile;
import sweepbook.acquisition.wire.Profiles;
import sweepbook.cli.plan.Word;
import sweepbook.simulator.job.JoineryScenario;
import sweepbook.simulator.job.SoughtOffset;
import sweepbook.simulator.job.VirtualJob;
import sweepbook.simulator.job.VirtualTouch;
import sweepbook.simulator.serve.IndicatorServer;
import sweepbook.simulator.serve.Pace;

/** Plays indicator, machine and technician for somebody who has none of them. */
@Command(
        name = "simulate",
        description = {
            "Play an indicator on a machine, touch by touch, for another program to measure.",
            "Enter makes the next touch and shows what the controller would; r makes the last one again; q leaves."
        })
final class SimulateCommand implements Callable<Integer> {
    /** Whose machine it is. */
    private enum Scenario {
        JOINERY,
        JOINERY_IN_INCHES;

        @Override
        public String toString() {
            return Word.of(this);
        }

        /** The bundled plan for it. */
        String plan() {
            return this == JOINERY ? "joinery-head" : "joinery-head-inch";
        }

        VirtualJob job(long seed) {
            return this == JOINERY ? JoineryScenario.of(seed) : JoineryScenario.inInches(seed);
        }
    }

    /** Where the indicator's cable ends. */
    private static final class Cable {
        @Option(
                names = "--listen",
                paramLabel = "PORT",
                description = "Serve a TCP port of this computer only; 0 takes any that is free.")
        private Integer port;

        @Option(
                names = "--device",
                paramLabel = "PATH",
                description = "Speak on a serial device, such as one end of a pair of pseudo-terminals.")
        private Path device;
    }

    private static final int MOST_PORT = 65_535;

    @Spec
    private CommandSpec spec;

    @ArgGroup(multiplicity = "1")
    private Cable cable;

    @Option(
            names = "--seed",
            defaultValue = "1",
            paramLabel = "N",
            description = "Another seed is another machine (default: ${DEFAULT-VALUE}).")
    private long seed;

    @Option(
            names = "--scenario",
            defaultValue = "joinery",
            paramLabel = "NAME",
            description = "${COMPLETION-CANDIDATES} (default: ${DEFAULT-VALUE}).")
    private Scenario scenario;

    @Option(
            names = "--profile",
            paramLabel = "PROFILE",
            description =
                    "What travels on the wire (default: text-mm-stream; with --fast or inches text-timed-stream).")
    private Optional<String> profileName;

    @Option(
            names = "--fast",
            description = "As fast as the link takes it, touches only; needs a profile whose frames carry the time.")
    private boolean fast;

    @Override
    public Integer call() throws IOException, UserFault, InterruptedException {
        IndicatorProfile profile = Profiles.load(profileName.orElse(
                fast || scenario == Scenario.JOINERY_IN_INCHES ? "text-timed-stream" : "text-mm-stream"));
        VirtualJob job = scenario.job(seed);
        PrintWriter err = spec.commandLine().getErr();
        try (IndicatorServer server = server(job, profile)) {
            err.println("The link is " + link(server) + ", the profile " + profile.name() + ".");
            err.println("To measure it: sweepbook measure " + scenario.plan() + " "
                    + (cable.port == null ? "serial:PORT" : link(server)) + " --profile "
                    + profileName.orElse(profile.name()) + " --book FILE");
            play(job, server, err);
        }
        return ExitStatus.DONE;
    }

    private void play(VirtualJob job, IndicatorServer server, PrintWriter err)
            throws IOException, InterruptedException {
        BufferedReader lines = new BufferedReader(new InputStreamReader(System.in, StandardCharsets.UTF_8));
        int touches = job.offsets().stream().mapToInt(o -> o.touches().size()).sum();
        for (int next = 0; ; ) {
            err.println(next < touches ? "Enter: touch " + (next + 1) + " of " + touches : "That was all; q leaves.");
            err.flush();
            String line = lines.readLine();
            if (line == null || line.strip().equals("q")) {
                return;
            }
            if (line.strip().equals("r") && next > 0) {
                next--;
            }
            if (next < touches) {
                show(touch(job, server, next));
                next++;
            }
        }
    }

    private static VirtualTouch touch(VirtualJob job, IndicatorServer server, int number)
            throws IOException, InterruptedException {
        int left = number;
        for (SoughtOffset offset : job.offsets()) {
            if (left < offset.touches().size()) {
                return server.touch(offset.name(), left);
            }
            left -= offset.touches().size();
        }
        throw new IllegalArgumentException("no touch " + number);
    }

    private void show(VirtualTouch made) {
        PrintWriter out = spec.commandLine().getOut();
        out.println(made.offset() + ", touch " + (made.touch() + 1) + ": " + made.axis() + " shows " + made.onCrest()
                + " on the crest, " + made.atTheEnd() + " at the end");
        out.flush();
    }

    private IndicatorServer server(VirtualJob job, IndicatorProfile profile) throws IOException, UserFault {
        if (cable.port != null && (cable.port < 0 || cable.port > MOST_PORT)) {
            throw UserFault.wrongUse("--listen " + cable.port + ": a port is a number from 0 to " + MOST_PORT);
        }
        Pace pace = fast ? Pace.AS_FAST_AS_THE_LINK : Pace.TRUE_CADENCE;
        if (cable.port == null && !isDevice(cable.device)) {
            throw UserFault.wrongUse(cable.device + ": is no device, or may not be written; a pair comes from"
                    + " 'socat pty,raw,echo=0,link=A pty,raw,echo=0,link=B'");
        }
        try {
            return cable.port == null
                    ? IndicatorServer.onDevice(job, profile, pace, cable.device)
                    : IndicatorServer.onLoopback(job, profile, pace, cable.port);
        } catch (BindException e) {
            throw UserFault.wrongUse("port " + cable.port + ": " + e.getMessage() + "; choose another, or 0 for any");
        } catch (IllegalArgumentException e) {
            throw UserFault.wrongUse(e.getMessage());
        }
    }

    private static boolean isDevice(Path path) {
        return Files.isWritable(path) && !Files.isDirectory(path) && !Files.isRegularFile(path);
    }

    private String link(IndicatorServer server) {
        return cable.port == null ? "the other end of " + cable.device : "tcp:localhost:" + server.port();
    }
}

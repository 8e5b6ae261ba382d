package sweepbook.cli.command;

import java.io.IOException;
import java.io.PrintWriter;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.concurrent.Callable;
import org.jline.terminal.Terminal;
import org.jline.terminal.TerminalBuilder;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;
import sweepbook.acquisition.link.LinkAddress;
import sweepbook.acquisition.link.LinkException;
import sweepbook.acquisition.source.Event;
import sweepbook.acquisition.source.ReadingSource;
import sweepbook.acquisition.source.ReadingSources;
import sweepbook.acquisition.time.Clock;
import sweepbook.acquisition.wire.IndicatorProfile;
import sweepbook.acquisition.wire.Profiles;
import sweepbook.cli.book.Book;
import sweepbook.cli.book.BookEvent;
import sweepbook.cli.book.BookFile;
import sweepbook.cli.book.ProgramVersion;
import sweepbook.cli.live.Companion;
import sweepbook.cli.live.MeasureJob;
import sweepbook.cli.live.NotDeterminedException;
import sweepbook.cli.live.Person;
import sweepbook.cli.live.PipedPerson;
import sweepbook.cli.live.PositionsFile;
import sweepbook.cli.live.TerminalPerson;
import sweepbook.cli.plan.Plan;
import sweepbook.cli.plan.PlanFile;
import sweepbook.cli.plan.Plans;

/** Walks a person through a plan and keeps the book of it; a book that is there already is gone on with. */
@Command(name = "measure", description = "Measure a plan touch by touch, and keep the book of it.")
final class MeasureCommand implements Callable<Integer> {
    @Spec
    private CommandSpec spec;

    @Parameters(index = "0", paramLabel = "PLAN", description = "A plan file, or the name of a bundled plan.")
    private String planName;

    @Parameters(index = "1", paramLabel = "LINK", description = "serial:PORT, tcp:HOST:PORT, replay:FILE or console:.")
    private String link;

    @Option(
            names = "--book",
            required = true,
            paramLabel = "FILE",
            description = "The book; one that is there already is gone on with.")
    private Path bookFile;

    @Option(
            names = "--profile",
            paramLabel = "PROFILE",
            description = "What travels on the wire: a bundled profile or a file (default: as the plan says).")
    private Optional<String> profileName;

    @Option(
            names = "--positions",
            paramLabel = "FILE",
            description = "Take the typed positions from a file, one a line.")
    private Optional<Path> positions;

    @Option(
            names = "--beside",
            paramLabel = "NAME=LINK",
            description = "Record another indicator beside each touch, under this name; may be given again.")
    private Map<String, String> beside = new LinkedHashMap<>();

    @Option(
            names = "--beside-profile",
            paramLabel = "PROFILE",
            description = "What travels on the wires beside (default: the same as on the first).")
    private Optional<String> besideProfile;

    @Mixin
    private Patience patience = new Patience();

    @Option(names = "--person", defaultValue = "", paramLabel = "NAME", description = "Who measures, for the record.")
    private String person;

    @Option(
            names = "--remark",
            defaultValue = "",
            paramLabel = "TEXT",
            description = "Temperature and whatever else belongs on the record.")
    private String remark;

    @Override
    public Integer call() throws IOException, UserFault {
        PrintWriter err = spec.commandLine().getErr();
        String planText = Plans.text(planName);
        Plan plan = PlanFile.parse(planName, planText);
        LinkAddress address = LinkAddress.parse(link);
        Optional<String> name = profileName.or(() -> plan.indicator().profile());
        Optional<IndicatorProfile> profile = name.isEmpty() ? Optional.empty() : Optional.of(Profiles.load(name.get()));
        Clock clock = Clock.system();
        boolean isNew = !Files.exists(bookFile) || Files.isRegularFile(bookFile) && Files.size(bookFile) == 0;
        Optional<Book> soFar = isNew ? Optional.empty() : Optional.of(BookFile.read(bookFile));
        MeasureJob.Ending ending;
        try (Person typist = typist(address, soFar, err);
                ReadingSource source = ReadingSources.open(address, profile, clock, patience.duration());
                Companions companions = companions(profile, clock);
                BookFile book = isNew
                        ? begun(planText, name.orElse(""), clock)
                        : goneOn(planText, name.orElse(""), clock, err)) {
            if (address instanceof LinkAddress.Replay && soFar.isPresent()) {
                passOver(source, soFar.get());
            }
            ending = run(new MeasureJob(book, source, typist, companions.all()));
        }
        err.println(
                switch (ending) {
                    case COMPLETE ->
                        "The book is " + bookFile + "; 'sweepbook offsets' and 'sweepbook report' read it.";
                    case SOME_LEFT_OUT, LEFT -> "The same command goes on from here; the book is " + bookFile + ".";
                });
        return ending == MeasureJob.Ending.SOME_LEFT_OUT ? ExitStatus.NOT_DETERMINED : ExitStatus.DONE;
    }

    /** A recording begins anew: what the book has of it already must not be measured again. */
    private static void passOver(ReadingSource source, Book soFar) throws IOException {
        double kept_s = soFar.lastKept_s(source.name()).orElse(Double.NEGATIVE_INFINITY);
        double now_s = Double.NEGATIVE_INFINITY;
        while (now_s < kept_s) {
            Event event = source.next(Duration.ofSeconds(1));
            if (event == Event.EndOfInput.END_OF_INPUT) {
                return;
            }
            if (event instanceof Event.ReadingTaken taken) {
                now_s = taken.reading().time_s();
            }
        }
    }

    /** The indicators beside, closed together. */
    private record Companions(List<Companion> all) implements AutoCloseable {
        @Override
        public void close() {
            all.forEach(Companion::close);
        }
    }

    private Companions companions(Optional<IndicatorProfile> first, Clock clock) throws IOException, UserFault {
        Optional<IndicatorProfile> profile =
                besideProfile.isPresent() ? Optional.of(Profiles.load(besideProfile.get())) : first;
        Companions opened = new Companions(new ArrayList<>());
        try {
            for (Map.Entry<String, String> one : beside.entrySet()) {
                LinkAddress address = LinkAddress.parse(one.getValue());
                opened.all()
                        .add(new Companion(
                                one.getKey(), ReadingSources.open(address, profile, clock, patience.duration())));
            }
        } catch (IOException e) {
            opened.close();
            throw e;
        }
        return opened;
    }

    private MeasureJob.Ending run(MeasureJob job) throws IOException, UserFault {
        try {
            return job.run();
        } catch (NotDeterminedException e) {
            throw new UserFault(ExitStatus.NOT_DETERMINED, e.getMessage());
        } catch (LinkException e) {
            throw new UserFault(
                    ExitStatus.LINK_LOST,
                    e.getMessage() + "; what was captured is in " + bookFile
                            + ", and the same command goes on from there, with another link where the port has changed");
        }
    }

    private BookFile begun(String planText, String profile, Clock clock) throws IOException {
        return BookFile.begin(
                bookFile, clock, new BookEvent.Begun(ProgramVersion.text(), planText, profile, person, remark));
    }

    private BookFile goneOn(String planText, String profile, Clock clock, PrintWriter err)
            throws IOException, UserFault {
        BookFile book =
                BookFile.resume(bookFile, clock, new BookEvent.Resumed(ProgramVersion.text(), profile, person, remark));
        if (!book.book().begun().planText().equals(planText)) {
            book.close();
            throw UserFault.wrongUse(bookFile + ": was begun with another plan than " + planName
                    + "; go on with that plan, or name a new book");
        }
        book.setAside().ifPresent(torn -> err.println("A line that a crash tore was set aside in " + torn));
        err.println("Going on with " + bookFile + ".");
        return book;
    }

    private Person typist(LinkAddress address, Optional<Book> soFar, PrintWriter err) throws IOException, UserFault {
        if (positions.isPresent()) {
            return new PositionsFile(
                    positions.get(), soFar.map(Book::positionsTaken).orElse(0), err);
        }
        if (address instanceof LinkAddress.Console) {
            throw UserFault.wrongUse("console: takes the readings from where you would type; give the positions in a"
                    + " file with --positions");
        }
        Terminal terminal = TerminalBuilder.builder().system(true).dumb(true).build();
        if (terminal.getType().startsWith(Terminal.TYPE_DUMB)) {
            terminal.close();
            return new PipedPerson(System.in, err);
        }
        return new TerminalPerson(terminal);
    }
}

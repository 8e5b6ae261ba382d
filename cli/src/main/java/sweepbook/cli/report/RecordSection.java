package sweepbook.cli.report;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import sweepbook.cli.book.Attempt;
import sweepbook.cli.book.Book;
import sweepbook.cli.book.BookEvent;
import sweepbook.cli.book.BookEvent.Fate;
import sweepbook.cli.book.BookEvent.Incident;
import sweepbook.cli.book.BookEvent.Moment;
import sweepbook.cli.book.BookEvent.Typed;
import sweepbook.cli.book.OffsetResult;
import sweepbook.cli.book.Offsets;
import sweepbook.cli.plan.PlannedOffset;
import sweepbook.cli.plan.Word;

/** What did not go smoothly: attempts that do not count, incidents, texts that were doubted, refused or withdrawn. */
final class RecordSection {
    /** Of one attempt; a link that floods would make a page that nobody can open. */
    private static final int MOST_INCIDENTS = 100;

    private final Page page;
    private final Markup html;
    private final Book book;
    private final List<OffsetResult> results;

    RecordSection(Page page, Book book, List<OffsetResult> results) {
        this.page = page;
        this.html = page.html();
        this.book = book;
        this.results = results;
    }

    void write() {
        html.open("section", "aria-labelledby", "record").element("h2", "The rest of the record", "id", "record");
        sittings();
        attempts();
        skipped();
        typed();
        incidents();
        new BesideSection(page).write(book);
        html.close();
    }

    private void sittings() {
        if (book.sittings().isEmpty()) {
            return;
        }
        html.element("h3", "Who went on with it");
        Table table = new Table(
                html, "After the first sitting", List.of("At", "Person", "Remark", "Indicator profile", "Software"));
        for (Book.Sitting sitting : book.sittings()) {
            BookEvent.Resumed resumed = sitting.resumed();
            table.row(
                    BookReport.time(sitting.wall_s()),
                    resumed.person(),
                    resumed.remark(),
                    resumed.profile(),
                    resumed.version());
        }
        table.close();
    }

    private void attempts() {
        html.element("h3", "Attempts that do not count");
        List<Attempt> others = book.attempts().stream().filter(a -> !counts(a)).toList();
        if (others.isEmpty()) {
            html.element("p", "None: every attempt counts.");
        }
        for (Attempt attempt : others) {
            html.element("h4", "Attempt " + attempt.number() + ": " + station(attempt));
            page.facts(new Page.Facts()
                    .add("Why", why(attempt))
                    .add("Begun", BookReport.time(attempt.wall_s()))
                    .add("Link", attempt.link())
                    .add("Readings", Integer.toString(attempt.trace().size())));
            planned(attempt)
                    .ifPresent(offset -> TouchSection.pictures(
                            html,
                            "attempt-" + attempt.number(),
                            attempt.trace(),
                            new Offsets(book).findings(offset, attempt.touch(), attempt)));
        }
    }

    private boolean counts(Attempt attempt) {
        return results.stream()
                .flatMap(result -> result.touches().stream())
                .anyMatch(touch -> touch.attempt().number() == attempt.number());
    }

    private static String why(Attempt attempt) {
        if (attempt.outcome() instanceof Attempt.Outcome.SetAside aside) {
            return aside.why();
        }
        return attempt.isKept() ? "the touch was made again later" : "the program ended in the middle of it";
    }

    private Optional<PlannedOffset> planned(Attempt attempt) {
        return book.plan().offsets().stream()
                .filter(offset -> offset.name().equals(attempt.offset()))
                .findFirst();
    }

    private String station(Attempt attempt) {
        return attempt.offset() + ", touch " + (attempt.touch() + 1);
    }

    private void skipped() {
        if (!book.skipped().isEmpty()) {
            html.element("h3", "Left out");
            html.open("ul");
            for (Book.Station station : book.skipped()) {
                html.element("li", station.offset().name() + ", touch " + (station.touch() + 1));
            }
            html.close();
        }
    }

    private void typed() {
        html.element("h3", "Typed texts that were doubted, refused or withdrawn");
        List<String[]> rows = new ArrayList<>();
        for (Attempt attempt : book.attempts()) {
            for (Attempt.TypedAt at : attempt.typed()) {
                Typed typed = at.typed();
                if (typed.fate() != Fate.TAKEN) {
                    rows.add(new String[] {
                        Integer.toString(attempt.number()),
                        station(attempt),
                        BookReport.timeOfDay(at.wall_s()),
                        moment(typed.moment()),
                        "\u201c" + typed.text() + "\u201d",
                        Word.of(typed.fate()),
                        typed.why()
                    });
                }
            }
        }
        table("As typed", List.of("Attempt", "Touch", "Typed at", "Position", "Text", "Fate", "Why"), rows);
    }

    private static String moment(Moment moment) {
        return switch (moment) {
            case ON_CREST -> "on the crest";
            case ON_TRAVEL -> "of the travel";
            case AT_THE_END -> "at the end";
        };
    }

    private void incidents() {
        html.element("h3", "Incidents");
        List<String[]> rows = new ArrayList<>();
        for (Attempt attempt : book.attempts()) {
            int told = Math.min(MOST_INCIDENTS, attempt.incidents().size());
            for (Incident incident : attempt.incidents().subList(0, told)) {
                rows.add(new String[] {
                    Integer.toString(attempt.number()), station(attempt), time(attempt, incident), incident.what()
                });
            }
            if (told < attempt.incidents().size()) {
                String more = (attempt.incidents().size() - told) + " more; the book holds them all";
                rows.add(new String[] {Integer.toString(attempt.number()), station(attempt), "later", more});
            }
        }
        table("Damaged frames, words of the indicator, lost links", List.of("Attempt", "Touch", "Time", "What"), rows);
    }

    private static String time(Attempt attempt, Incident incident) {
        double start_s = attempt.trace().isEmpty() ? 0 : attempt.trace().time_s(0);
        return Figures.plain(incident.time_s() - start_s, 2) + " s";
    }

    private void table(String caption, List<String> columns, List<String[]> rows) {
        if (rows.isEmpty()) {
            html.element("p", "None.");
            return;
        }
        Table table = new Table(html, caption, columns);
        rows.forEach(table::row);
        table.close();
    }
}

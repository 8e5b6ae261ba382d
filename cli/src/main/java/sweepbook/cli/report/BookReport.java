package sweepbook.cli.report;

import java.time.Instant;
import java.time.ZoneOffset;
import java.time.format.DateTimeFormatter;
import java.util.List;
import java.util.Locale;
import java.util.stream.Stream;
import sweepbook.cli.book.Attempt;
import sweepbook.cli.book.Book;
import sweepbook.cli.book.OffsetResult;
import sweepbook.cli.book.ToolEffect;
import sweepbook.cli.plan.Cautions;
import sweepbook.cli.plan.Plan;

/** A book as one page for the technician at the controller as well as for the auditor; the same book gives the same bytes. */
public final class BookReport {
    private static final DateTimeFormatter TO_THE_SECOND = DateTimeFormatter.ofPattern(
                    "uuuu-MM-dd HH:mm:ss 'UTC'", Locale.ROOT)
            .withZone(ZoneOffset.UTC);

    private static final int DATE_LENGTH = "uuuu-MM-dd".length();

    private final Book book;
    private final List<OffsetResult> results;
    private final String lastHash;
    private final Page page;

    private BookReport(Book book, List<OffsetResult> results, String lastHash) {
        this.book = book;
        this.results = results;
        this.lastHash = lastHash;
        this.page = new Page(
                book.plan().plan(),
                book.plan().machine().name() + ", serial number "
                        + book.plan().machine().serial());
    }

    /**
     * The page.
     *
     * @param results every offset of the book
     * @param lastHash hash of the book's last line, which stands for the whole book; empty if it is not known
     */
    public static String html(Book book, List<OffsetResult> results, String lastHash) {
        return new BookReport(book, results, lastHash).html();
    }

    private String html() {
        head();
        cautions("typing", "Before you type anything in", Cautions.BEFORE_TYPING_IN);
        new EntrySection(page).write(results);
        cautions(
                "moving",
                "Before the machine moves again",
                Stream.concat(Cautions.BEFORE_A_MOVE.stream(), Cautions.NEAR_CONTACT.stream())
                        .toList());
        int number = 0;
        for (OffsetResult result : results) {
            number++;
            new OffsetSection(page, book, number).write(result);
        }
        ToolEffect.of(book.plan(), results).ifPresent(effect -> new EffectSection(
                        page, book.plan().machine().resolution().unit())
                .write(effect));
        new RecordSection(page, book, results).write();
        settings();
        page.footer();
        return page.finish();
    }

    private void head() {
        Plan.Indicator indicator = book.plan().indicator();
        page.facts(new Page.Facts()
                .add("Measured by", book.begun().person())
                .add("Measured on", measuredOn())
                .add("Temperature, remarks", book.begun().remark())
                .add("Indicator", indicator.description())
                .add("Indicator's serial number", indicator.serial())
                .add("Indicator's resolution", indicator.resolution().toString())
                .add("Indicator calibrated", indicator.calibrated().orElse("no date on record"))
                .add(
                        "Machine shows positions to",
                        book.plan().machine().resolution().toString())
                .add("Software", "sweepbook " + book.begun().version().replaceFirst("^sweepbook ", ""))
                .add("Hash of the book's last line (SHA-256)", lastHash));
    }

    private String measuredOn() {
        List<Attempt> attempts = book.attempts();
        if (attempts.isEmpty()) {
            return "nothing measured yet";
        }
        String from = time(attempts.get(0).wall_s());
        String to = time(attempts.get(attempts.size() - 1).wall_s());
        boolean oneDay = from.substring(0, DATE_LENGTH).equals(to.substring(0, DATE_LENGTH));
        return from.replace(" UTC", "") + " to "
                + (oneDay ? to.substring(DATE_LENGTH).strip() : to);
    }

    private void cautions(String id, String title, List<String> cautions) {
        Markup html = page.html();
        html.open("section", "class", "cautions", "aria-labelledby", id)
                .element("h2", title, "id", id)
                .open("ul");
        cautions.forEach(caution -> html.element("li", caution));
        html.element("li", Cautions.DEFERENCE).close().close();
    }

    private void settings() {
        page.html()
                .open("section", "aria-labelledby", "settings")
                .element("h2", "Settings", "id", "settings")
                .element(
                        "p",
                        "Indicator profile: " + book.begun().profile()
                                + ". The plan, as it was when the book was begun:")
                .element("pre", book.begun().planText(), "tabindex", "0")
                .close();
    }

    /** The same day's time alone. */
    static String timeOfDay(double wall_s) {
        return time(wall_s).substring(DATE_LENGTH).strip();
    }

    /** Seconds since 1970 as a date with its time. */
    static String time(double wall_s) {
        return TO_THE_SECOND.format(Instant.ofEpochMilli((long) (wall_s * 1000)));
    }
}

package sweepbook.cli.report;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.io.StringReader;
import java.nio.file.Path;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import javax.xml.parsers.DocumentBuilderFactory;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.w3c.dom.Document;
import org.w3c.dom.Element;
import org.w3c.dom.NodeList;
import org.xml.sax.InputSource;
import sweepbook.acquisition.trace.LengthUnit;
import sweepbook.analysis.head.TipErrors;
import sweepbook.cli.book.Attempt;
import sweepbook.cli.book.Book;
import sweepbook.cli.book.BookEvent;
import sweepbook.cli.book.BookFile;
import sweepbook.cli.book.JoineryBook;
import sweepbook.cli.book.OffsetResult;
import sweepbook.cli.book.Offsets;
import sweepbook.cli.book.ToolEffect;
import sweepbook.cli.plan.Cautions;

class BookReportTest {
    private static final String HASH = "5f".repeat(32);

    private static Book book;
    private static List<OffsetResult> results;
    private static String html;
    private static Document page;

    @BeforeAll
    static void writeABook(@TempDir Path folder) throws Exception {
        Path file = folder.resolve("joinery.book");
        JoineryBook.write(file, 5, Instant.parse("2026-03-02T07:40:00Z"));
        book = BookFile.read(file);
        results = new Offsets(book).all();
        html = BookReport.html(book, results, HASH);
        page = DocumentBuilderFactory.newInstance()
                .newDocumentBuilder()
                .parse(new InputSource(new StringReader(html.replace("<!DOCTYPE html>", ""))));
    }

    private static List<Element> elements(String tag) {
        NodeList nodes = page.getElementsByTagName(tag);
        List<Element> elements = new ArrayList<>();
        for (int i = 0; i < nodes.getLength(); i++) {
            elements.add((Element) nodes.item(i));
        }
        return elements;
    }

    private static String text() {
        return page.getDocumentElement().getTextContent().replace('\u00a0', ' ');
    }

    private static void holds(String what) {
        assertTrue(text().contains(what), () -> "the page does not hold: " + what);
    }

    @Test
    void theSameBookGivesTheSameBytes() throws IOException {
        assertEquals(html, BookReport.html(book, new Offsets(book).all(), HASH));
    }

    @Test
    void whatIndicatorsBesideSentIsShownUnderTheirNames() {
        holds("Indicators beside");
        List<String> titles =
                elements("h4").stream().map(Element::getTextContent).toList();
        assertTrue(titles.stream().anyMatch(title -> title.startsWith("table ") && title.contains("-z")), titles + "");
        holds("Greatest reading");
        holds("0.003 in");
        assertTrue(elements("svg").stream().anyMatch(svg -> svg.getTextContent().startsWith("table ")));
    }

    /** JCGM 100:2008, 7.2.7: of each input estimate its standard uncertainty, which is a number with a unit. */
    @Test
    void everySourceOfTheBudgetHasItsUnit() {
        List<String> own = elements("td").stream()
                .map(Element::getTextContent)
                .filter(text -> text.contains(" \u00d7 "))
                .toList();
        assertFalse(own.isEmpty());
        assertTrue(own.stream().anyMatch(text -> text.contains("\u00a0mm/s \u00d7 ")), own + "");
        long ratios = own.stream().filter(text -> !text.contains("\u00a0mm")).count();
        long tilts = elements("th").stream()
                .filter(th -> th.getTextContent().startsWith("cosine of"))
                .count();
        assertEquals(tilts, ratios, own + "");
    }

    @Test
    void theEntriesToTypeAreThoseOfTheOffsets() {
        List<String> large = elements("p").stream()
                .filter(p -> p.getAttribute("class").startsWith("after"))
                .map(Element::getTextContent)
                .toList();
        List<String> expected = results.stream()
                .map(result -> result.result()
                        .asOptional()
                        .map(outcome -> outcome.entry().after().toPlainString() + " mm")
                        .orElse("not determined"))
                .toList();
        assertEquals(expected, large);
        assertEquals(3, results.stream().filter(r -> r.result().isFound()).count(), "three of four are measured");
    }

    @Test
    void theHeadSaysWhoWhatAndWhen() {
        holds("Head of the joinery's gantry router");
        holds("BH-2-0417");
        holds("WB-30518");
        holds("2026-02-11");
        holds("19.4 degrees C, hall door shut");
        holds("sweepbook 0.1.0");
        holds(HASH);
        holds("2026-03-02 07:40:");
    }

    @Test
    void everyCautionIsShown() {
        holds(Cautions.DEFERENCE);
        Cautions.BEFORE_A_MOVE.forEach(BookReportTest::holds);
        Cautions.NEAR_CONTACT.forEach(BookReportTest::holds);
        Cautions.BEFORE_TYPING_IN.forEach(BookReportTest::holds);
    }

    @Test
    void whatDidNotGoSmoothlyIsOnThePage() {
        holds("Attempt 1: swivel-axis-to-spindle, touch 1");
        holds("knocked the stand");
        holds("the program ended in the middle of it");
        holds("dropped '+00.1[U+0000]7': the frame is cut");
        holds("\u201c12,5\u201d");
        holds("'12,5' has a comma");
        holds("the new entry would differ by more than 3.0 mm");
        holds("1 of 2 touches made; measure the rest");
        holds("spindle-to-drill-z, touch 2");
    }

    /** A link that floods must not make a page that nobody can open; what is left out is counted. */
    @Test
    void aFloodOfIncidentsIsToldByItsNumber() {
        List<Attempt> attempts = new ArrayList<>(book.attempts());
        Attempt first = attempts.get(0);
        List<BookEvent.Incident> flood =
                Collections.nCopies(5000, new BookEvent.Incident(1, 1, "dropped '?': no reading"));
        attempts.set(
                0,
                new Attempt(
                        first.number(),
                        first.offset(),
                        first.touch(),
                        first.link(),
                        first.wall_s(),
                        first.trace(),
                        first.beside(),
                        first.typed(),
                        flood,
                        first.outcome()));
        String flooded = BookReport.html(
                new Book(book.begun(), book.plan(), book.sittings(), attempts, book.deeds()), results, HASH);
        assertTrue(flooded.contains("4900 more; the book holds them all"));
        assertTrue(flooded.length() < html.length() + 40_000, () -> flooded.length() + " characters");
    }

    @Test
    void whoWentOnWithItIsOnThePage() {
        Book.Sitting sitting = new Book.Sitting(
                1_772_442_000, new BookEvent.Resumed("2", "text-mm-stream", "Tilo Varn", "after lunch, 22 C"));
        String resumed = BookReport.html(
                new Book(book.begun(), book.plan(), List.of(sitting), book.attempts(), book.deeds()), results, HASH);
        assertTrue(resumed.contains("Tilo Varn") && resumed.contains("after lunch, 22 C"));
        assertTrue(resumed.contains("2026-03-02 09:00:00 UTC"));
    }

    /** Each number that was typed and taken stands on the page as it was typed. */
    @Test
    void everyTypedTextIsOnThePage() {
        long typed = book.attempts().stream()
                .flatMap(attempt -> attempt.typed().stream())
                .peek(at -> holds("\u201c" + at.typed().text() + "\u201d"))
                .count();
        assertEquals(1 + 7 * 2 + 2, typed);
    }

    @Test
    void everyTraceIsAPictureWithAnAlternativeText() {
        List<Element> pictures = elements("svg");
        long crests = results.stream()
                .flatMap(r -> r.touches().stream())
                .filter(t -> t.findings().highSpot().isFound())
                .count();
        // Every attempt with readings once whole, the knocked one with its crest as well; the effect at the tool over C
        // and over A; one trace of an indicator beside.
        assertEquals(book.attempts().size() - 1 + crests + 1 + 2 + 1, pictures.size());
        for (Element picture : pictures) {
            assertEquals("img", picture.getAttribute("role"));
            assertEquals(1, picture.getElementsByTagName("title").getLength());
            assertEquals(1, picture.getElementsByTagName("desc").getLength());
        }
    }

    @Test
    void idsAreUniqueAndEveryReferenceResolves() {
        List<String> ids = elements("*").stream()
                .map(e -> e.getAttribute("id"))
                .filter(id -> !id.isEmpty())
                .toList();
        assertEquals(ids.stream().distinct().toList(), ids);
        for (Element element : elements("*")) {
            for (String id : element.getAttribute("aria-labelledby").split(" ")) {
                assertTrue(id.isEmpty() || ids.contains(id), id);
            }
            String link = element.getAttribute("href");
            assertTrue(link.isEmpty() || ids.contains(link.substring(1)), link);
        }
    }

    @Test
    void headingsNeverSkipALevel() {
        int level = 0;
        for (Element element : elements("*")) {
            if (element.getTagName().matches("h[1-6]")) {
                int here = element.getTagName().charAt(1) - '0';
                assertTrue(here <= level + 1, () -> "after a skipped level: " + element.getTextContent());
                level = here;
            }
        }
        assertEquals(1, elements("h1").size());
    }

    @Test
    void nothingIsFetchedAndNothingRuns() {
        for (String tag : List.of("script", "link", "img", "iframe", "object", "form", "base")) {
            assertEquals(List.of(), elements(tag), tag);
        }
        for (Element element : elements("*")) {
            for (int i = 0; i < element.getAttributes().getLength(); i++) {
                String name = element.getAttributes().item(i).getNodeName();
                String value = element.getAttributes().item(i).getNodeValue();
                assertFalse(name.startsWith("on") || name.equals("src"), name);
                assertTrue(name.equals("xmlns") || !value.contains("//"), value);
            }
        }
        assertFalse(elements("style").get(0).getTextContent().matches("(?s).*(@import|url\\().*"));
    }

    @Test
    void whatWasTypedStaysTextAndReadsAsItIs() {
        holds("Ilse Marwood <script>alert(1)</script> & \"quoted\" [U+202E][U+0007]");
        assertFalse(html.contains("\u202e"));
    }

    /** The clicks prove two typed positions, but not one that was insisted on against a doubt. */
    @Test
    void whatWouldNotBeNoticedIsSaid() {
        holds("A stand or part that was bumped between the touches");
        List<String> blindToDigits = results.stream()
                .filter(result -> result.result().isFound())
                .filter(result -> Unnoticed.in(result).stream().anyMatch(m -> m.startsWith("A mistyped position")))
                .map(result -> result.planned().name())
                .toList();
        assertEquals(List.of("spindle-to-drill"), blindToDigits);
    }

    @Test
    void theEffectAtTheToolIsShown() {
        holds("What the present table does at the tool");
        TipErrors.TipError worst = TipErrors.worst(
                ToolEffect.of(book.plan(), results).orElseThrow().errors());
        holds(Figures.withU95(worst.size().combined(), LengthUnit.MM).replace('\u00a0', ' ') + " at A ");
    }

    @Test
    void theBudgetBeginsWithItsLargestLine() {
        Element first = elements("table").stream()
                .filter(t -> t.getElementsByTagName("caption")
                        .item(0)
                        .getTextContent()
                        .startsWith("Uncertainty"))
                .findFirst()
                .orElseThrow();
        String source = ((Element) first.getElementsByTagName("tbody").item(0))
                .getElementsByTagName("th")
                .item(0)
                .getTextContent();
        assertEquals(
                results.get(0)
                        .result()
                        .asOptional()
                        .orElseThrow()
                        .offset()
                        .largestFirst()
                        .get(0)
                        .source(),
                source);
    }
}

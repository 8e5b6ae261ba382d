package sweepbook.cli.report;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import sweepbook.cli.book.ProgramVersion;

/** One self-contained HTML page: no script, nothing fetched from elsewhere, for screen, phone or paper. */
final class Page {
    /** Longer values than this get a line of their own. */
    private static final int WIDE = 60;

    private final Markup html = new Markup();

    Page(String title, String subtitle) {
        html.raw("<!DOCTYPE html>\n").open("html", "lang", "en").open("head");
        html.empty("meta", "charset", "utf-8");
        html.empty("meta", "name", "viewport", "content", "width=device-width, initial-scale=1");
        html.element("title", title + " \u2013 sweepbook");
        html.open("style").raw(css()).close().close();
        html.open("body").open("main").open("header").element("h1", title);
        html.element("p", subtitle, "class", "subtitle").close();
    }

    private static String css() {
        try (InputStream in = Page.class.getResourceAsStream("page.css")) {
            return new String(in.readAllBytes(), StandardCharsets.UTF_8);
        } catch (IOException e) {
            throw new UncheckedIOException("the page's style sheet is missing from the program", e);
        }
    }

    /** Where the page's parts are written. */
    Markup html() {
        return html;
    }

    /** Names with their values; those without a value are left out. */
    void facts(Facts facts) {
        html.open("dl", "class", "facts");
        facts.values.forEach((name, value) -> {
            html.open("div", "class", value.length() > WIDE ? "wide" : "narrow");
            html.element("dt", name).element("dd", value).close();
        });
        html.close();
    }

    /** A list of remarks that the reader must not miss; nothing where there is none. */
    void warnings(List<String> warnings) {
        if (warnings.isEmpty()) {
            return;
        }
        html.open("ul", "class", "warnings");
        warnings.forEach(warning -> html.element("li", warning));
        html.close();
    }

    /** What holds for every number of the page. */
    void footer() {
        html.open("footer")
                .element(
                        "p",
                        "Made by sweepbook " + ProgramVersion.text()
                                + ". Values after \u00b1 are half-widths of intervals that hold the true value"
                                + " with 95 % probability (JCGM 100:2008). Times of day are UTC; times in a trace count"
                                + " from its first reading.")
                .close();
    }

    /** The page is whole. */
    String finish() {
        return html.close().close().close().toString();
    }

    /** Names with values, in order. */
    static final class Facts {
        private final Map<String, String> values = new LinkedHashMap<>();

        Facts add(String name, String value) {
            if (!value.isBlank()) {
                values.put(name, value);
            }
            return this;
        }
    }
}

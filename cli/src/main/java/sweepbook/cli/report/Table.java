package sweepbook.cli.report;

import java.util.List;

/** A table whose first column names the row; a narrow screen shows it row by row, each cell after its column's name. */
final class Table {
    private final Markup html;
    private final List<String> columns;

    /** Begins a table; the caption says what it holds. */
    Table(Markup html, String caption, List<String> columns) {
        this.html = html;
        this.columns = columns;
        // A narrow screen lays rows out as blocks, which would take their meaning for a screen reader but for the
        // roles.
        html.open("table", "role", "table").element("caption", caption);
        html.open("thead", "role", "rowgroup").open("tr", "role", "row");
        columns.forEach(column -> html.element("th", column, "role", "columnheader", "scope", "col"));
        html.close().close().open("tbody", "role", "rowgroup");
    }

    /** One row, a cell for each column. */
    Table row(String... cells) {
        if (cells.length != columns.size()) {
            throw new IllegalArgumentException(cells.length + " cells for the columns " + columns);
        }
        html.open("tr", "role", "row").element("th", cells[0], "role", "rowheader", "scope", "row");
        for (int i = 1; i < cells.length; i++) {
            html.element("td", cells[i], "role", "cell", "data-column", columns.get(i));
        }
        html.close();
        return this;
    }

    void close() {
        html.close().close();
    }
}

package sweepbook.cli.command;

import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.io.IOException;
import java.io.PrintWriter;
import java.nio.file.Path;
import java.util.List;
import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;
import sweepbook.acquisition.trace.LengthUnit;
import sweepbook.analysis.network.Residual;
import sweepbook.analysis.offset.EntryUnit;
import sweepbook.analysis.uncertainty.Estimate;
import sweepbook.analysis.uncertainty.Finding;
import sweepbook.cli.book.Book;
import sweepbook.cli.book.BookFile;
import sweepbook.cli.book.OffsetResult;
import sweepbook.cli.book.Offsets;
import sweepbook.cli.plan.Cautions;
import sweepbook.cli.plan.Measurement.Beside;

/** Derives every offset of a book again from its raw readings. */
@Command(name = "offsets", description = "Derive every offset of a book again from its raw readings.")
final class OffsetsCommand implements Callable<Integer> {
    private static final ObjectMapper JSON = new ObjectMapper();

    @Spec
    private CommandSpec spec;

    @Option(names = "--json", description = "Print one JSON object a line, in the order of the plan.")
    private boolean json;

    @Parameters(paramLabel = "BOOK", description = "The book.")
    private Path file;

    @Override
    public Integer call() throws IOException {
        PrintWriter out = spec.commandLine().getOut();
        Book book = BookFile.read(file);
        LengthUnit shown = book.plan().machine().resolution().unit();
        List<OffsetResult> results = new Offsets(book).all();
        if (json) {
            for (OffsetResult result : results) {
                out.println(JSON.writeValueAsString(object(result, shown)));
            }
        } else {
            OffsetTable.print(out, results, shown);
            out.println();
            Cautions.BEFORE_TYPING_IN.forEach(caution -> out.println("! " + caution));
        }
        out.flush();
        boolean all = results.stream().allMatch(result -> result.result().isFound());
        return all ? ExitStatus.DONE : ExitStatus.NOT_DETERMINED;
    }

    /** Values in the unit of the entry, what was found besides in that of the machine; what is not determined is null, with a reason. */
    private static ObjectNode object(OffsetResult result, LengthUnit shown) {
        EntryUnit unit = result.planned().entry().convention().unit();
        ObjectNode object = JSON.createObjectNode();
        object.put("name", result.planned().name());
        object.put("axis", result.planned().axis().name());
        object.put("unit", unit.symbol());
        if (result.result() instanceof Finding.NotDetermined<OffsetResult.Outcome> not) {
            object.putNull("value").putNull("stdU").putNull("u95");
            object.put("entryBefore", result.planned().entry().before());
            object.putNull("entryAfter").putNull("decision");
            object.putArray("warnings");
            object.put("reason", not.reason());
            return object;
        }
        OffsetResult.Outcome outcome = result.result().asOptional().orElseThrow();
        Estimate offset = outcome.offset().combined();
        object.put("value", unit.fromInside(offset.value()));
        object.put("stdU", unit.fromInside(offset.stdU()));
        object.put("u95", unit.fromInside(offset.u95()));
        object.put("entryBefore", outcome.entry().before());
        object.put("entryAfter", outcome.entry().after());
        object.put("decision", outcome.decision().map(d -> d.verdict().words()).orElse(null));
        for (Beside beside : outcome.besides()) {
            put(object.withObject("besides").putObject(beside.what()), beside, shown);
        }
        for (Residual residual : outcome.residuals()) {
            ObjectNode fit = object.withArray("residuals").addObject();
            fit.put("touch", residual.observation().name());
            fit.put("unit", shown.symbol());
            fit.put("residual", shown.fromMm(residual.residual_mm()));
            fit.put("redundancy", residual.redundancy());
            fit.put("standardised", residual.normalised());
            fit.put("leastMistakeThatShows", residual.isControlled() ? shown.fromMm(residual.detectable_mm()) : null);
        }
        outcome.warnings().forEach(object.putArray("warnings")::add);
        return object;
    }

    private static void put(ObjectNode found, Beside beside, LengthUnit shown) {
        boolean isLength = beside.quantity() == Beside.Quantity.LENGTH;
        double unit = isLength ? shown.fromMm(1) : 1;
        found.put(
                "unit",
                switch (beside.quantity()) {
                    case LENGTH -> shown.symbol();
                    case ANGLE -> EntryUnit.DEG.symbol();
                    case RATIO -> "1";
                });
        found.put("value", unit * beside.found().value());
        found.put("stdU", unit * beside.found().stdU());
        found.put("u95", unit * beside.found().u95());
    }
}

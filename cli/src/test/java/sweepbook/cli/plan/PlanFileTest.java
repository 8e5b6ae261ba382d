package sweepbook.cli.plan;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class PlanFileTest {
    /** What is changed in the bundled plan, and what is told of it. */
    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            quoteCharacter = '~',
            value = {
                "\"hysteresis\": \"0.001 mm\" | \"hysteresis\": \"-5 mm\" | indicator.hysteresis: must not be negative, as -5 mm is",
                "\"backlash\": \"0.002 mm\" | \"backlash\": \"0,002 mm\" | machine.backlash: '0,002 mm' is not a length",
                "\"to\": \"3400.000 mm\" | \"to\": \"-3400.000 mm\" | machine.travels.0.to: -3400.000 mm must be above 'from'",
                "\"sweep\": \"Y\" | \"sweep\": \"X\" | offsets.0.touches.0.sweep: is along X, the measured axis",
                "{\"feature\": \"drill pin\" | {\"feature\": \"dril pin\" | 'dril pin' is not among the plan's features",
                "\"jogStep\": \"0.010 mm\" | \"jogStop\": \"0.010 mm\" | machine.jogStep: is missing",
                "\"indicatorStands\" | \"indicatorStand\" | offsets.0.indicatorStands: is missing",
            })
    void aFaultNamesItsField(String good, String bad, String told) throws IOException {
        String plan = Plans.text("joinery-head");
        assertTrue(plan.contains(good), good);
        IOException fault = assertThrows(
                IOException.class,
                () -> PlanFile.parse("shop.json", plan.replaceFirst(java.util.regex.Pattern.quote(good), bad)));
        assertTrue(fault.getMessage().startsWith("shop.json, line "), fault.getMessage());
        assertTrue(fault.getMessage().contains(told), fault.getMessage());
    }

    @Test
    void aFlatFeatureNeedsTheSenseOfPressing() throws IOException {
        String plan = Plans.text("joinery-head");
        int flat = plan.indexOf("spindle-to-drill-z");
        String without = plan.substring(0, flat) + plan.substring(flat).replaceFirst("\"pressing\": \"raises\",", "");
        IOException fault = assertThrows(IOException.class, () -> PlanFile.parse("shop.json", without));
        assertTrue(
                fault.getMessage()
                        .endsWith("is missing: a flat feature has no crest to tell it from; write raises or lowers"),
                fault.getMessage());
    }

    @Test
    void everyBundledPlanIsWhole() throws IOException {
        for (String name : PlanParts.NAMES) {
            List<PlannedOffset> offsets = PlanFile.parse(name, Plans.text(name)).offsets();
            assertEquals(name, offsets.get(0).name());
            for (PlannedOffset offset : offsets) {
                for (TouchSeries.PlannedTouch touch : offset.touches()) {
                    assertTrue(
                            touch.setUp().length() <= 170, () -> "too long to read at the machine: " + touch.setUp());
                }
            }
        }
    }
}

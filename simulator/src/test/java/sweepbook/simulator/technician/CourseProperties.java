package sweepbook.simulator.technician;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Random;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.DoubleRange;
import net.jqwik.api.constraints.IntRange;
import sweepbook.simulator.machine.Course;

/** Laws of a hand's motion. */
class CourseProperties {
    /** A hand goes from rest to rest over the whole travel and never turns back, however uneven it is. */
    @Property(tries = 200)
    void aHandNeverTurnsBack(
            @ForAll @DoubleRange(min = -50, max = 50) double travel,
            @ForAll @DoubleRange(min = 0.2, max = 20) double duration_s,
            @ForAll @DoubleRange(min = 0.02, max = 0.5) double ramp,
            @ForAll @DoubleRange(min = 0, max = 0.95) double unevenness,
            @ForAll long seed) {
        Course course = new HandCourse(travel, duration_s, ramp, unevenness, new Random(seed));
        assertEquals(0, course.travel(0), 1e-12);
        assertEquals(travel, course.travel(), 1e-9);
        double before = 0;
        for (int i = 1; i <= 200; i++) {
            double now = course.travel(duration_s * i / 200);
            assertTrue((now - before) * Math.signum(travel) >= -1e-12, "turns back at " + i + " of 200");
            before = now;
        }
    }

    /** Clicks add up, also where the slide sticks, and between them the axis stands. */
    @Property(tries = 200)
    void clicksAddUp(
            @ForAll @IntRange(min = 1, max = 40) int clicks,
            @ForAll @DoubleRange(min = 0, max = 0.8) double stick,
            @ForAll long seed) {
        Course course = ClickCourse.of(clicks, 0.01, 0.4, 0.1, stick, new Random(seed));
        assertEquals(clicks * 0.01, course.travel(), 1e-12);
        double settled = course.travel(course.duration_s() - 0.05);
        assertEquals(course.travel(), settled, 1e-12, "at rest before the last wait is over");
        double inClicks = course.travel(course.duration_s() / 2) / 0.01;
        assertTrue(inClicks >= -1e-9 && inClicks <= clicks + 1e-9);
    }
}

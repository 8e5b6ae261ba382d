package sweepbook.analysis.runout;

import java.util.Comparator;
import java.util.Locale;
import java.util.Optional;
import java.util.stream.IntStream;
import sweepbook.analysis.runout.angle.TurnMarks;
import sweepbook.analysis.runout.fit.HarmonicChoice;
import sweepbook.analysis.runout.fit.Samples;
import sweepbook.analysis.runout.fit.TurnFit;

/**
 * Whether the part was turned back for good. Marks do not tell, for they pass on the way back as well; but the readings
 * then run backwards, so that they fit one profile better at angles that are folded where the turning went back, halfway
 * between the two passings of one mark.
 */
final class WayBack {
    /** Log odds by which the readings must speak for it: few turn back, and it may be between any two marks. */
    private static final double ODDS = 10;

    private final Samples samples;
    private final TurnMarks marks;
    private final double[] angle_rad;

    WayBack(Samples samples, TurnMarks marks) {
        this.samples = MarkCount.some(samples);
        this.marks = marks;
        angle_rad = marks.turning().angles_rad(this.samples.time_s());
    }

    /** Where it was, and what to do. */
    Optional<String> objection() {
        double forward = evidence(angle_rad);
        return IntStream.range(0, marks.count() - 1)
                .boxed()
                .map(m -> new Fold(m, evidence(foldedAfter(m)) - forward))
                .max(Comparator.comparingDouble(Fold::odds))
                .filter(fold -> fold.odds() > ODDS)
                .map(fold -> String.format(
                        Locale.ROOT,
                        "after the mark at %.2f s the readings run backwards: the turning went back; turn again, one way",
                        marks.time_s()[fold.mark()]));
    }

    private record Fold(int mark, double odds) {}

    private double[] foldedAfter(int m) {
        double fold_rad = (marks.angles_rad()[m] + marks.angles_rad()[m + 1]) / 2;
        double[] folded = angle_rad.clone();
        for (int i = 0; i < folded.length; i++) {
            folded[i] = folded[i] > fold_rad ? 2 * fold_rad - folded[i] : folded[i];
        }
        return folded;
    }

    private double evidence(double[] at_rad) {
        return TurnFit.atAngles(samples, HarmonicChoice.usual(samples.size()), 1, at_rad, TurnFit.Detail.PLAIN)
                .evidence();
    }
}

package sweepbook.analysis.runout;

import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Random;
import java.util.stream.Collectors;
import java.util.stream.IntStream;
import org.hipparchus.stat.descriptive.moment.Variance;
import sweepbook.analysis.runout.angle.MarkDoubts;
import sweepbook.analysis.runout.angle.TurnMarks;
import sweepbook.analysis.runout.angle.Turning;
import sweepbook.analysis.runout.fit.HarmonicChoice;
import sweepbook.analysis.runout.fit.Samples;
import sweepbook.analysis.runout.fit.TurnFit;

/**
 * Whether the readings repeat with another number of marks a turn than was told. A turning that may be anything bends
 * until readings that do not repeat seem to; so others are tried beside it, those in which the readings repeat best by
 * the marks alone.
 */
final class MarkCount {
    /** A turn seldom has more marks than one in ten degrees. */
    private static final int MOST = 36;
    /** Others whose log likelihood by the marks alone is further below that of the number told are no better. */
    private static final double SLACK = 20;

    /**
     * Several turns taken for one never fit worse, and better where turns differ; but one taken for several fits so badly
     * that the profile leaves more than this share of the readings' variance.
     */
    private static final double UNEXPLAINED = 0.1;

    private static final int TRIED = 2;
    /** So many readings show it. */
    private static final int READINGS = 2_000;
    /** Log odds by which the readings must speak for the number told, lest figures of another turn be given. */
    private static final double TOLD_ODDS = 5;

    private static final double OF_SEVERAL_ODDS = 25;

    private final Samples samples;
    private final double turnsByMark;

    private final TurnMarks marks;
    private final int told;

    MarkCount(Samples samples, TurnMarks marks, int told) {
        this.samples = some(samples);
        this.marks = marks;
        this.told = told;
        Turning turning = marks.turning();
        turnsByMark = (turning.angle_rad(samples.to_s()) - turning.angle_rad(samples.from_s())) / marks.step_rad();
    }

    /** Taken at random: at equal steps they might fall on the same places of every turn. */
    static Samples some(Samples samples) {
        int n = samples.size();
        if (n <= READINGS) {
            return samples;
        }
        boolean[] keep = new boolean[n];
        new Random(n).ints(READINGS, 0, n).forEach(i -> keep[i] = true);
        return samples.only(keep);
    }

    /** Other numbers worth a look, as doubts of the one told. */
    List<MarkDoubts.Doubt> others() {
        double asTold_mm = scatter_mm(told);
        double most_mm = asTold_mm * Math.exp(SLACK / samples.size());
        boolean explained = asTold_mm * asTold_mm < UNEXPLAINED * new Variance(false).evaluate(samples.reading_mm());
        Map<Integer, Double> scatter_mm = IntStream.rangeClosed(1, Math.max(MOST, 2 * told))
                .filter(n -> n <= turnsByMark && (n % told != 0 || n > told && !explained))
                .boxed()
                .collect(Collectors.toMap(n -> n, this::scatter_mm));
        return scatter_mm.keySet().stream()
                .filter(n -> scatter_mm.get(n) < most_mm)
                .sorted(Comparator.comparing(scatter_mm::get))
                .limit(TRIED)
                .map(n -> new MarkDoubts.Doubt(
                        String.format(
                                Locale.ROOT,
                                "the readings repeat as if there were %d marks a turn, not %d: see how many there are"
                                        + " (--marks-per-turn), or whether the turning stopped or went back",
                                n,
                                told),
                        marks.asPerTurn(n),
                        (n % told == 0 ? -OF_SEVERAL_ODDS : TOLD_ODDS) - surerByAngle(n)))
                .toList();
    }

    /** By how much marks are the surer in log odds for being told by a smaller angle, though by the same time. */
    private double surerByAngle(int perTurn) {
        return marks.count() * Math.log((double) perTurn / told);
    }

    /** How far the readings lie off a profile, at the angles that the marks alone tell. */
    private double scatter_mm(int perTurn) {
        return TurnFit.atAngles(
                        samples,
                        HarmonicChoice.usual(samples.size()),
                        0,
                        marks.asPerTurn(perTurn).turning().angles_rad(samples.time_s()),
                        TurnFit.Detail.PLAIN)
                .scatter_mm();
    }
}

package sweepbook.cli.proof;

import sweepbook.analysis.uncertainty.Estimate;

/** A measurement whose truth is known, to be made on any number of set-ups. */
public interface Trial {
    /** What is measured. */
    String words();

    /** Makes the measurement on the set-up of a seed. */
    Outcome of(long seed);

    /**
     * @param found what the measurement says
     * @param truth in the same unit
     */
    record Outcome(Estimate found, double truth) {
        public boolean isCovered() {
            return Math.abs(found.value() - truth) <= found.u95();
        }
    }
}

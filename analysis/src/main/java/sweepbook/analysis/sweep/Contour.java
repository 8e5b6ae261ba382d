package sweepbook.analysis.sweep;

/** What the contact touches. */
public enum Contour {
    /** A shaft, pin or ball, with a crest to sweep over. */
    ROUND,
    /** A face, on which a rise that ends in a stand is nothing but the contact that was pressed. */
    FLAT
}

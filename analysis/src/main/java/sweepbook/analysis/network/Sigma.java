package sweepbook.analysis.network;

/** Where the scale of the uncertainties comes from. */
public enum Sigma {
    /** The observations' standard uncertainties are taken as they stand. */
    AS_STATED,
    /** They are ratios only; the scale comes from how well the observations agree. */
    FROM_SCATTER
}

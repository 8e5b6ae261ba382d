/** What the trace of a turned part says: full indicator movement, eccentricity, harmonics, roundness. */
package sweepbook.analysis.runout;

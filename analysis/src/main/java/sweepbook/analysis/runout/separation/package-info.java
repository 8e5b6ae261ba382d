/** What of a runout is the part's, what the spindle's. */
package sweepbook.analysis.runout.separation;

/** What the trace of a sweep says: passes, high spot, dwell, jog clicks, stable zero. */
package sweepbook.analysis.sweep;

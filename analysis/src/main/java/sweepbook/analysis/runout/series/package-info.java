/** What many runouts together say of a process. */
package sweepbook.analysis.runout.series;

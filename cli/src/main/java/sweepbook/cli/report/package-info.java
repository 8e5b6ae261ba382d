/** A book or a trace as a page to look at. */
package sweepbook.cli.report;

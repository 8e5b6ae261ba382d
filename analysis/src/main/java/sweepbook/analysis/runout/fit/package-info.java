/** Least squares for a profile that comes round again with every turn. */
package sweepbook.analysis.runout.fit;

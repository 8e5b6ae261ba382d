/** Least squares over more touches than are needed. */
package sweepbook.analysis.network;

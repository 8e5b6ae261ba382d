/** The four reference circles about which roundness is told (ISO 12181-1). */
package sweepbook.analysis.runout.circle;

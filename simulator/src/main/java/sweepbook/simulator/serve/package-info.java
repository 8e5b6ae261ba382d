/** Puts the readings of a virtual indicator on a link. */
package sweepbook.simulator.serve;

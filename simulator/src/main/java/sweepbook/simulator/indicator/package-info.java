/** A virtual indicator, from contact to wire. */
package sweepbook.simulator.indicator;

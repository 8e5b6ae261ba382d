/** Traces of which the truth is known, one kind a trouble. */
package sweepbook.simulator.trial;

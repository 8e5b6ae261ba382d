/** What can go wrong with a trace, one class a trouble. */
package sweepbook.simulator.fault;

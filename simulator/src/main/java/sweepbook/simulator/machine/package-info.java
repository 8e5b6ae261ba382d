/** A virtual machine whose true geometry is known. */
package sweepbook.simulator.machine;

/** How a person's hand moves the machine. */
package sweepbook.simulator.technician;

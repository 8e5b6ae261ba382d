/** A whole set-up job on a virtual machine, touch by touch. */
package sweepbook.simulator.job;

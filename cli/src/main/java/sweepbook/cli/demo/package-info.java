/** The whole job on the simulator, where the truth is known. */
package sweepbook.cli.demo;

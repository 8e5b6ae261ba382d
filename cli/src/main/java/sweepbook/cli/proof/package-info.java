/** How far numbers are off, over simulated trials whose truth is known. */
package sweepbook.cli.proof;

/** How far offsets are off, over set-ups whose truth is known. */
package sweepbook.cli.proof;

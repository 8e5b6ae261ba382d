/** Where the part stands at each reading: the angle it has turned through. */
package sweepbook.analysis.runout.angle;

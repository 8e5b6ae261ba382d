/** What touches at typed machine positions say about the distance between features. */
package sweepbook.analysis.offset;

/** Models with a handful of parameters laid through many values. */
package sweepbook.analysis.fit;

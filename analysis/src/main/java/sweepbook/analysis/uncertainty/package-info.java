/** How well a value is known, after JCGM 100. */
package sweepbook.analysis.uncertainty;

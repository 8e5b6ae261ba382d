/** Readings one after the other, wherever they come from. */
package sweepbook.acquisition.source;

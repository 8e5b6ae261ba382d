/** Readings in time order. */
package sweepbook.acquisition.trace;

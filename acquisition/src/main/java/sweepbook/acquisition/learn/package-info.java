/** A profile proposed from the bytes of an indicator that nobody described. */
package sweepbook.acquisition.learn;

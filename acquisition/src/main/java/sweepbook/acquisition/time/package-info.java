/** The time of day beside the time that only goes forward. */
package sweepbook.acquisition.time;

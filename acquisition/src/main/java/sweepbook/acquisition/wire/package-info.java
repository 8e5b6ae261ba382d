/** What the bytes of an indicator mean, as its profile says. */
package sweepbook.acquisition.wire;

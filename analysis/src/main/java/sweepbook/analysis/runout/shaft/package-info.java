/** What runout at several stations along a shaft says of its axis. */
package sweepbook.analysis.runout.shaft;

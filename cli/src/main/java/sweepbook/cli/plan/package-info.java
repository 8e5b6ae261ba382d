/** What is to be measured on which machine, as the shop wrote it down. */
package sweepbook.cli.plan;

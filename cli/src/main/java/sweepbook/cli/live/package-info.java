/** What a person sees and types while the indicator is read. */
package sweepbook.cli.live;

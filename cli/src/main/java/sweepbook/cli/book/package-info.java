/** What happened while a plan was measured, as it stands on record. */
package sweepbook.cli.book;

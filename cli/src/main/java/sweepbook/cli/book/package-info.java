/** A plan walked touch by touch into a book of record. */
package sweepbook.cli.book;

/** Append-only, hash-chained lines that are on disk before they are acknowledged. */
package sweepbook.acquisition.journal;

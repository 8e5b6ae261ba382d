/** Files that a person wrote, read with the place of every fault. */
package sweepbook.acquisition.input;

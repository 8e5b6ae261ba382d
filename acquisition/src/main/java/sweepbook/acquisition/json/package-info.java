/** JSON written by people, whose faults name the field with its line. */
package sweepbook.acquisition.json;

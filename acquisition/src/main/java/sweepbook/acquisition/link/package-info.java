/** The bytes of an indicator, in and out, over whatever cable it has. */
package sweepbook.acquisition.link;

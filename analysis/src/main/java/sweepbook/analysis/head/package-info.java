/** Where the tool goes: forward kinematics of a swivelling, tilting head. */
package sweepbook.analysis.head;

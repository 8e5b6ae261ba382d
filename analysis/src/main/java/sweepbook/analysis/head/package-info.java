/**
 * Where the tool goes: forward kinematics of a machine described as data.
 *
 * <pre>{@code
 * GeometryTable before = GeometryTable.exact(Map.of("tilt-axis-to-gauge-face", 212.40, ...));
 * GeometryTable after = before.with("tilt-axis-to-gauge-face", measured);
 * TipErrors errors = new TipErrors(Kinematics.SWIVEL_AND_TILT_HEAD, before, after);
 * errors.at(TipErrors.grid(Map.of("C", swivels_deg, "A", tilts_deg)));
 * }</pre>
 */
package sweepbook.analysis.head;

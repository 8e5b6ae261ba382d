/**
 * What touches at typed machine positions say about the distance between features.
 *
 * <pre>{@code
 * Approach approach = new Approach(Direction.PLUS, Pressing.RAISES, Stand.ON_TABLE);
 * Touch spindle = new Touch(new Feature.Round("spindle pin", pinRadius), approach, 412.350, readingOnCrest, 0);
 * Touch drill = new Touch(new Feature.Flat("drill face"), approach, 498.125, otherReading, 240);
 * Budget offset = new TouchPair(spindle, drill).offset(conditions);
 * EntryChange entry = convention.change(entryBefore, offset);
 * }</pre>
 *
 * <p>{@link TouchPair}, {@link BracketedPair}, {@link Reversal}, {@link TurnedTouches}, {@link Alignment} and {@link Tram}
 * take touches and give a {@link sweepbook.analysis.uncertainty.Budget}; {@link TouchNetwork} takes all touches of an
 * axis; {@link ScaleCheck}, {@link LeverContact} and {@link CalibrationTable} correct the readings that go in. Signs
 * and derivations stand in {@code analysis/docs/offsets.md}.
 */
package sweepbook.analysis.offset;

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
 */
package sweepbook.analysis.offset;

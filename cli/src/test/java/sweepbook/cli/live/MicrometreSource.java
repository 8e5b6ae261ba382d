package sweepbook.cli.live;

import sweepbook.acquisition.source.ReadingSource;
import sweepbook.acquisition.trace.LengthUnit;

/** An indicator with a display of micrometres and no marks, at the end of no link. */
abstract class MicrometreSource implements ReadingSource {
    @Override
    public String name() {
        return "virtual:";
    }

    @Override
    public LengthUnit unit() {
        return LengthUnit.MM;
    }

    @Override
    public double resolution_mm() {
        return 0.001;
    }

    @Override
    public boolean hasMarks() {
        return false;
    }

    @Override
    public void close() {}
}

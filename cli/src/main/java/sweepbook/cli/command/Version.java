package sweepbook.cli.command;

import picocli.CommandLine.IVersionProvider;
import sweepbook.cli.book.ProgramVersion;

/** The version that the jar carries. */
final class Version implements IVersionProvider {
    @Override
    public String[] getVersion() {
        return new String[] {"sweepbook " + ProgramVersion.text()};
    }
}

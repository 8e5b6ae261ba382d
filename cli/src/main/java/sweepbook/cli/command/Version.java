package sweepbook.cli.command;

import picocli.CommandLine.IVersionProvider;

/** The version that the jar carries. */
final class Version implements IVersionProvider {
    @Override
    public String[] getVersion() {
        return new String[] {"sweepbook " + text()};
    }

    static String text() {
        String packaged = Version.class.getPackage().getImplementationVersion();
        return packaged == null ? "(unpackaged)" : packaged;
    }
}

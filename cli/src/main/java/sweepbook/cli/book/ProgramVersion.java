package sweepbook.cli.book;

/** The version that the program carries; it stands in books and on pages. */
public final class ProgramVersion {
    private ProgramVersion() {}

    public static String text() {
        String packaged = ProgramVersion.class.getPackage().getImplementationVersion();
        return packaged == null ? "(unpackaged)" : packaged;
    }
}

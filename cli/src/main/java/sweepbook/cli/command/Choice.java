package sweepbook.cli.command;

import java.util.List;
import picocli.CommandLine.ITypeConverter;
import picocli.CommandLine.TypeConversionException;

/** Reads one of several kinds as they are printed, in capitals and with underscores too. */
record Choice<K>(List<K> kinds) implements ITypeConverter<K> {
    @Override
    public K convert(String word) {
        String printed = word.replace('_', '-');
        return kinds.stream()
                .filter(kind -> kind.toString().equalsIgnoreCase(printed))
                .findFirst()
                .orElseThrow(() -> new TypeConversionException("'" + word + "' is none of "
                        + String.join(", ", kinds.stream().map(Object::toString).toList())));
    }
}

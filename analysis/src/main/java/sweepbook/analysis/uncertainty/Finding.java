package sweepbook.analysis.uncertainty;

import java.util.Optional;
import java.util.function.Function;

/** What was looked for: found, or not determined for a reason that a person can act on. */
public sealed interface Finding<T> {
    record Found<T>(T value) implements Finding<T> {}

    record NotDetermined<T>(String reason) implements Finding<T> {}

    static <T> Finding<T> found(T value) {
        return new Found<>(value);
    }

    static <T> Finding<T> notDetermined(String reason) {
        return new NotDetermined<>(reason);
    }

    default Optional<T> asOptional() {
        return this instanceof Found<T> found ? Optional.of(found.value()) : Optional.empty();
    }

    default boolean isFound() {
        return this instanceof Found<T>;
    }

    default <R> Finding<R> map(Function<? super T, ? extends R> f) {
        if (this instanceof NotDetermined<T> not) {
            return new NotDetermined<>(not.reason());
        }
        return new Found<>(f.apply(((Found<T>) this).value()));
    }

    default <R> Finding<R> flatMap(Function<? super T, Finding<R>> f) {
        if (this instanceof NotDetermined<T> not) {
            return new NotDetermined<>(not.reason());
        }
        return f.apply(((Found<T>) this).value());
    }
}

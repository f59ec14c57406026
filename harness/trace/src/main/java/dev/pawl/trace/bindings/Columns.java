package dev.pawl.trace.bindings;

import java.util.Optional;

/**
 * What the columns of a CSV trace, or the keys of a JSON one, are called where they are not called {@code time},
 * {@code signal}, {@code value} and {@code quality}.
 *
 * @param separator character between fields
 */
public record Columns(Optional<String> time, Optional<String> signal, Optional<String> value, Optional<String> quality,
    char separator) {

  public static final Columns DEFAULT =
      new Columns(Optional.empty(), Optional.empty(), Optional.empty(), Optional.empty(), ',');
}

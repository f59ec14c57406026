package dev.pawl.plant.layout;

import dev.pawl.grammar.source.Position;

/** A mistake in a layout file; its message starts with file, line and column. */
public final class LayoutException extends RuntimeException {

  LayoutException(Position position, String message) {
    super(position + ": " + message);
  }
}

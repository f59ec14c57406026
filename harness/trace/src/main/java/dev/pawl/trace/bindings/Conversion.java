package dev.pawl.trace.bindings;

import java.util.Map;

/** How a tag's logged value becomes a signal's, before the signal's own unit is applied. */
public sealed interface Conversion {

  /** As it is. */
  record Plain() implements Conversion {}

  /** The opposite of the logged bit. */
  record Inverted() implements Conversion {}

  /**
   * A number on another scale.
   *
   * @param factor of the signal's declared unit in one logged unit
   * @param offset value in the signal's declared unit of a logged zero
   */
  record Scaled(double factor, double offset) implements Conversion {}

  /**
   * Codes of the site.
   *
   * @param values engine value of each code; other codes are wrong
   */
  record Mapped(Map<String, Long> values) implements Conversion {
    public Mapped {
      values = Map.copyOf(values);
    }
  }
}

package dev.pawl.trace.bindings;

import java.util.Map;
import java.util.Set;

/**
 * What bindings state about signals before their first rows, by index of the signal.
 *
 * @param values engine values that signals had from the trace's first instant on
 * @param others bools that had the other value than their first row gives: it tells of a change
 */
public record StatedBeginning(Map<Integer, Long> values, Set<Integer> others) {

  public static final StatedBeginning NONE = new StatedBeginning(Map.of(), Set.of());

  public StatedBeginning {
    values = Map.copyOf(values);
    others = Set.copyOf(others);
  }

  /** Whether nothing is stated. */
  public boolean isNone() {
    return values.isEmpty() && others.isEmpty();
  }
}

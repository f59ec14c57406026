package dev.pawl.trace.bindings;

import dev.pawl.grammar.source.Position;
import java.util.List;

/**
 * A named group of entries.
 *
 * @param name its name
 * @param position where the name stands
 * @param entries its lines
 */
public record Section(String name, Position position, List<Entry> entries) {

  public Section {
    entries = List.copyOf(entries);
  }
}

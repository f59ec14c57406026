package dev.pawl.grammar.logic.drawn;

import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;

/**
 * An element, a declaration or a line of text of a drawn project, in the terms in which it is drawn. Where it stands in
 * the drawing, and its number there, are no part of it.
 *
 * @param line of the source, from 1
 * @param place unit, network and element
 * @param head what it is and its name, such as {@code contact base_flag}
 * @param words what else is to be said of it, such as {@code negated}; may be empty
 * @param wires what it takes, in the order of its pins
 * @param begins lines at which statements begin by which one sees what it does: its own, then of what it leads to
 */
public record Item(int line, String place, String head, String words, List<Wire> wires, List<Integer> begins) {

  /**
   * A wire to a pin.
   *
   * @param pin with what the pin does to the value; empty for the only one
   * @param from index, among the items of the project, of what it comes from; -1 for none, such as a power rail
   * @param source how that is called, with its output
   */
  public record Wire(String pin, int from, String source) {}

  public Item {
    wires = List.copyOf(wires);
    begins = List.copyOf(begins);
  }

  /** Something that is connected to nothing, and whose statement begins where it stands. */
  public static Item alone(int line, String place, String head, String words) {
    return new Item(line, place, head, words, List.of(), List.of(line));
  }

  /** All of it in one sentence. */
  public String text() {
    Map<String, String> sources = new LinkedHashMap<>();
    wires.forEach(wire -> sources.merge(wire.pin(), wire.source(), (one, other) -> one + " or " + other));
    StringBuilder text = new StringBuilder(words);
    sources.forEach((pin, source) -> text.append(text.isEmpty() ? "" : ", ").append(pin)
        .append(pin.isEmpty() ? "" : " ").append("from ").append(source));
    return text.isEmpty() ? place : place.isEmpty() ? text.toString() : place + ": " + text;
  }
}

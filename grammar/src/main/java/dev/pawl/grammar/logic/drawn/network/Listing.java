package dev.pawl.grammar.logic.drawn.network;

import dev.pawl.grammar.logic.drawn.Item;
import dev.pawl.grammar.logic.drawn.Legend;
import dev.pawl.grammar.logic.drawn.tree.Element;
import dev.pawl.grammar.logic.drawn.tree.Element.Edge;
import dev.pawl.grammar.logic.drawn.tree.Element.Link;
import dev.pawl.grammar.logic.drawn.tree.Element.Pin;
import dev.pawl.grammar.logic.drawn.tree.Element.Storage;
import dev.pawl.grammar.logic.drawn.tree.Pins;
import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Deque;
import java.util.HashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import java.util.function.Function;

/** The list of a diagram's elements, in the order of their evaluation. */
final class Listing {

  private final Diagram diagram;
  private final Function<Element, String> place;
  private final Map<Long, Integer> indices = new HashMap<>();
  private final Map<Long, List<Element>> takers = new HashMap<>();

  private final List<NetworkTranslator.Taken> outside;

  private Listing(Diagram diagram, List<NetworkTranslator.Taken> outside, Function<Element, String> place) {
    this.diagram = diagram;
    this.outside = outside;
    this.place = place;
  }

  /**
   * Adds the elements of a diagram to a legend.
   *
   * @param outside what takes from the diagram without being in it
   * @param place names unit, network and element
   */
  static Listing add(Diagram diagram, List<NetworkTranslator.Taken> outside, Function<Element, String> place,
      Legend legend) {
    Listing listing = new Listing(diagram, outside, place);
    listing.add(legend);
    return listing;
  }

  private void add(Legend legend) {
    int next = legend.size();
    for (Diagram.Stretch stretch : diagram.stretches()) {
      next += stretch.labels().size();
      for (Element element : stretch.elements()) {
        indices.put(element.head().id(), next++);
        for (Pin pin : Pins.in(element)) {
          for (Link link : pin.links()) {
            takers.computeIfAbsent(link.from(), unused -> new ArrayList<>()).add(element);
          }
        }
      }
    }
    for (Diagram.Stretch stretch : diagram.stretches()) {
      stretch.labels().forEach(label -> legend.list(() -> new Item(line(stretch), "", "label " + label,
          "label " + label, List.of(), List.of())));
      stretch.elements().forEach(element -> legend.list(() -> item(element)));
    }
  }

  /** A label stands for what comes behind it. */
  private static int line(Diagram.Stretch stretch) {
    return stretch.elements().isEmpty() ? 1 : stretch.elements().get(0).head().position().line();
  }

  private Item item(Element element) {
    List<Item.Wire> wires = new ArrayList<>();
    for (Pin pin : Pins.in(element)) {
      wires.addAll(wires(pin, words(pin.name(), pin.negated() ? "negated" : "", word(pin.edge()))));
    }
    return new Item(element.head().position().line(), place.apply(element), element.accept(Descriptions.OF),
        element.accept(MODIFIERS), wires, begins(element));
  }

  /** The wires to a pin. */
  List<Item.Wire> wires(Pin pin, String name) {
    return pin.links().stream().map(link -> new Item.Wire(name, indices.getOrDefault(link.from(), -1),
        source(link))).toList();
  }

  private String source(Link link) {
    String source = diagram.element(link.from()).map(element -> element instanceof Element.LeftRail
        ? "the left power rail" : element.accept(Descriptions.OF)).orElse("nothing");
    return link.output().isEmpty() ? source : source + " " + link.output();
  }

  /** The lines of an element and of all that it leads to, the nearest first. */
  private List<Integer> begins(Element element) {
    Set<Long> seen = new LinkedHashSet<>();
    List<Integer> lines = new ArrayList<>();
    Deque<Element> next = new ArrayDeque<>(List.of(element));
    while (!next.isEmpty() && lines.size() < 100) {
      Element each = next.remove();
      if (seen.add(each.head().id())) {
        lines.add(each.head().position().line());
        outside.stream().filter(taken -> taken.pin().links().stream().anyMatch(link -> link.from()
            == each.head().id())).forEach(taken -> lines.add(taken.by().line()));
        next.addAll(takers.getOrDefault(each.head().id(), List.of()));
      }
    }
    return lines;
  }

  private static String words(String... words) {
    return String.join(" ", List.of(words).stream().filter(word -> !word.isEmpty()).toList());
  }

  private static String word(Edge edge) {
    return edge == Edge.NONE ? "" : edge.name().toLowerCase(Locale.ROOT) + " edge";
  }

  private static String word(Storage storage) {
    return storage == Storage.NONE ? "" : storage.name().toLowerCase(Locale.ROOT);
  }

  private static String modifiers(boolean negated, Edge edge, Storage storage) {
    return words(negated ? "negated" : "", word(edge), word(storage));
  }

  private static final Element.Visitor<String> MODIFIERS = new Element.Question<>() {
    @Override public String otherwise(Element e) { return ""; }
    @Override public String visit(Element.Contact e) { return modifiers(e.negated(), e.edge(), Storage.NONE); }
    @Override public String visit(Element.Coil e) { return modifiers(e.negated(), e.edge(), e.storage()); }
    @Override public String visit(Element.Source e) { return modifiers(e.negated(), e.edge(), Storage.NONE); }
    @Override public String visit(Element.Sink e) { return modifiers(e.negated(), e.edge(), e.storage()); }
    @Override public String visit(Element.Jump e) { return modifiers(e.negated(), Edge.NONE, Storage.NONE); }
    @Override public String visit(Element.Return e) { return modifiers(e.negated(), Edge.NONE, Storage.NONE); }

    @Override
    public String visit(Element.Block e) {
      return String.join(", ", e.outputs().stream().filter(Pin::negated).map(pin -> pin.name() + " negated").toList());
    }
  };
}

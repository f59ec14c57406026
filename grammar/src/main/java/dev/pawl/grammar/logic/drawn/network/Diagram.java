package dev.pawl.grammar.logic.drawn.network;

import dev.pawl.grammar.logic.drawn.tree.Element;
import dev.pawl.grammar.logic.drawn.tree.Element.Link;
import dev.pawl.grammar.logic.drawn.tree.Element.Pin;
import dev.pawl.grammar.logic.drawn.tree.Pins;
import dev.pawl.grammar.source.Diagnostic;
import java.util.ArrayList;
import java.util.Collection;
import java.util.Comparator;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.function.Consumer;

/**
 * A diagram taken apart: which elements belong to one network, and which network comes when. What is connected is one
 * network, rails left out; the topmost comes first. A label belongs to the network beside it or next below it.
 */
final class Diagram {

  private final Consumer<Diagnostic> diagnostics;
  private final Map<Long, Element> elements = new LinkedHashMap<>();
  private final Map<String, Pin> connectors = new HashMap<>();
  private final Map<Long, Integer> numbers = new HashMap<>();
  private final boolean placed;

  /** Where elements stand in the file, if no places are stated; else nothing. */
  private final Map<Long, Integer> inFile = new HashMap<>();
  private final List<Stretch> stretches = new ArrayList<>();
  private boolean ambiguous;

  /** Elements in the order in which they are evaluated, behind a label or from the start. */
  record Stretch(List<String> labels, List<Element> elements) {}

  Diagram(List<Element> drawn, Consumer<Diagnostic> diagnostics) {
    this.diagnostics = diagnostics;
    for (Element element : drawn) {
      if (elements.putIfAbsent(element.head().id(), element) != null && element.head().id() >= 0) {
        ambiguous = true;
        error(element, "the localId " + element.head().id() + " occurs twice in this body");
      }
    }
    for (Element element : drawn) {
      if (element instanceof Element.Connector connector
          && connectors.putIfAbsent(connector.name().toUpperCase(Locale.ROOT), connector.in()) != null) {
        error(element, "there is another connector " + connector.name());
      }
    }
    if (!connectors.isEmpty() || drawn.stream().anyMatch(Element.Continuation.class::isInstance)) {
      elements.replaceAll((id, element) -> Renumbered.linked(element, this::followed));
    }
    placed = elements.values().stream().anyMatch(it -> it.head().x() != 0 || it.head().y() != 0);
    if (!placed) {
      elements.keySet().forEach(id -> inFile.put(id, inFile.size()));
    }
    arrange();
  }

  List<Stretch> stretches() {
    return stretches;
  }

  /** Whether two elements have one number, so that a wire may lead to the wrong one, or seem to lead nowhere. */
  boolean isAmbiguous() {
    return ambiguous;
  }

  /** All elements, with their wires followed to where they come from. */
  Collection<Element> elements() {
    return elements.values();
  }

  Optional<Element> element(long id) {
    return Optional.ofNullable(elements.get(id));
  }

  /** Whether no other block of the body is the same instance. */
  boolean isOnly(Element.Block block) {
    return elements.values().stream().filter(it -> it instanceof Element.Block other && other.instance().isPresent()
        && other.instance().get().text().strip().equalsIgnoreCase(block.instance().orElseThrow().text().strip()))
        .count() == 1;
  }

  /** The network that an element belongs to, counted from 1; 0 for what belongs to none. */
  int number(Element element) {
    return numbers.getOrDefault(element.head().id(), 0);
  }

  /** The pin with its wires followed through continuations to where they come from. */
  Pin followed(Pin pin) {
    List<Link> links = new ArrayList<>();
    for (Link link : pin.links()) {
      Link found = link;
      for (int hops = 0; elements.get(found.from()) instanceof Element.Continuation continuation; hops++) {
        Pin in = connectors.get(continuation.name().toUpperCase(Locale.ROOT));
        if (in == null || in.links().size() != 1 || hops > connectors.size()) {
          error(continuation, in == null ? "there is no connector " + continuation.name()
              : "the connector " + continuation.name() + " has not exactly one wire");
          break;
        }
        found = in.links().get(0);
      }
      links.add(found);
    }
    return new Pin(pin.name(), pin.negated(), pin.edge(), pin.storage(), links, pin.position());
  }

  private void error(Element element, String message) {
    diagnostics.accept(Diagnostic.error(element.head().position(), message));
  }

  private static boolean active(Element element) {
    return element.accept(new Element.Question<Boolean>() {
      @Override public Boolean otherwise(Element e) { return true; }
      @Override public Boolean visit(Element.LeftRail e) { return false; }
      @Override public Boolean visit(Element.RightRail e) { return false; }
      @Override public Boolean visit(Element.Label e) { return false; }
      @Override public Boolean visit(Element.Connector e) { return false; }
      @Override public Boolean visit(Element.Continuation e) { return false; }
    });
  }

  /** Elements that are connected, with their extent. */
  private static final class Network {

    private final List<Element> members = new ArrayList<>();
    private double top = Double.POSITIVE_INFINITY;
    private double bottom = Double.NEGATIVE_INFINITY;
    private double left = Double.POSITIVE_INFINITY;
    private int first = Integer.MAX_VALUE;
    private int given;

    void add(Element element, int number) {
      first = Math.min(first, number);
      members.add(element);
      top = Math.min(top, element.head().y());
      bottom = Math.max(bottom, element.head().y());
      left = Math.min(left, element.head().x());
      given = Math.max(given, element.head().network());
    }
  }

  private void arrange() {
    List<Element> active = elements.values().stream().filter(Diagram::active).toList();
    List<Network> networks = networks(active);
    networks.sort(Comparator.comparingInt((Network it) -> it.given).thenComparingDouble(it -> it.top)
        .thenComparingDouble(it -> it.left));
    for (int i = 0; i < networks.size(); i++) {
      for (Element member : networks.get(i).members) {
        numbers.put(member.head().id(), i + 1);
      }
    }
    long zeroes = active.stream().filter(it -> it.head().order().filter(order -> order == 0).isPresent()).count();
    boolean numbered = active.stream().anyMatch(it -> it.head().order().filter(order -> order > 0).isPresent());
    if (numbered) {
      byNumber(active, zeroes > 1);
    } else {
      byPlace(networks);
    }
  }

  private List<Network> networks(List<Element> active) {
    Map<Long, Long> parent = new HashMap<>();
    active.forEach(element -> parent.put(element.head().id(), element.head().id()));
    for (Element element : active) {
      for (Pin pin : Pins.in(element)) {
        for (Link link : pin.links()) {
          if (parent.containsKey(link.from())) {
            parent.put(root(parent, link.from()), root(parent, element.head().id()));
          }
        }
      }
    }
    Map<Long, Network> byRoot = new LinkedHashMap<>();
    for (Element element : active) {
      long key = element.head().network() > 0 ? -element.head().network() : root(parent, element.head().id());
      byRoot.computeIfAbsent(key, unused -> new Network()).add(element,
          inFile.getOrDefault(element.head().id(), 0));
    }
    return new ArrayList<>(byRoot.values());
  }

  /** Whether a label stands beside or above a network; where no places are stated, before its first element. */
  private boolean isBefore(Element.Label label, Network network) {
    return placed ? label.head().y() <= network.bottom : inFile.get(label.head().id()) < network.first;
  }

  private static long root(Map<Long, Long> parent, long id) {
    long found = id;
    while (parent.get(found) != found) {
      parent.put(found, parent.get(parent.get(found)));
      found = parent.get(found);
    }
    return found;
  }

  private void byPlace(List<Network> networks) {
    List<Element.Label> labels = new ArrayList<>(elements.values().stream().filter(Element.Label.class::isInstance)
        .map(Element.Label.class::cast).sorted(Comparator.comparingInt((Element.Label it) -> it.head().network())
            .thenComparingDouble(it -> it.head().y())).toList());
    for (Network network : networks) {
      List<String> here = new ArrayList<>();
      while (!labels.isEmpty() && (labels.get(0).head().network() < network.given
          || labels.get(0).head().network() == network.given && (network.given > 0
          || isBefore(labels.get(0), network)))) {
        here.add(labels.remove(0).name().toUpperCase(Locale.ROOT));
      }
      stretches.add(new Stretch(here, Sequencing.byFlow(network.members)));
    }
    if (!labels.isEmpty()) {
      stretches.add(new Stretch(labels.stream().map(it -> it.name().toUpperCase(Locale.ROOT)).toList(), List.of()));
    }
  }

  /** One order over all networks. */
  private void byNumber(List<Element> active, boolean zeroIsNone) {
    List<Element> cleaned = active.stream().map(element -> zeroIsNone ? Renumbered.of(element) : element).toList();
    List<Element> order = Sequencing.byNumber(cleaned);
    List<Element.Label> labels = new ArrayList<>(elements.values().stream().filter(Element.Label.class::isInstance)
        .map(Element.Label.class::cast).sorted(Comparator.comparingLong(it -> it.head().order().orElse(0L))).toList());
    labels.stream().filter(label -> label.head().order().isEmpty()).forEach(label -> error(label,
        "the label has no number of execution, though other elements here have one"));
    List<Element> stretch = new ArrayList<>();
    List<String> names = new ArrayList<>();
    for (Element element : order) {
      while (!labels.isEmpty() && element.head().order().isPresent()
          && labels.get(0).head().order().orElse(0L) <= element.head().order().get()) {
        if (!stretch.isEmpty()) {
          stretches.add(new Stretch(names, stretch));
          stretch = new ArrayList<>();
          names = new ArrayList<>();
        }
        names.add(labels.remove(0).name().toUpperCase(Locale.ROOT));
      }
      stretch.add(element);
    }
    stretches.add(new Stretch(names, stretch));
    if (!labels.isEmpty()) {
      stretches.add(new Stretch(labels.stream().map(it -> it.name().toUpperCase(Locale.ROOT)).toList(), List.of()));
    }
  }
}

package dev.pawl.run.control;

import dev.pawl.grammar.logic.drawn.Shown;
import dev.pawl.grammar.logic.drawn.tree.Element;
import dev.pawl.grammar.logic.drawn.tree.Element.Edge;
import dev.pawl.grammar.logic.drawn.tree.Element.Link;
import dev.pawl.grammar.logic.drawn.tree.Element.Pin;
import dev.pawl.grammar.logic.drawn.tree.Element.Storage;
import dev.pawl.grammar.logic.drawn.tree.Pins;
import dev.pawl.grammar.logic.parse.Fragment;
import dev.pawl.grammar.source.Position;
import dev.pawl.report.model.Drawing;
import dev.pawl.report.model.Drawing.Box;
import dev.pawl.report.model.Drawing.Port;
import dev.pawl.report.model.Drawing.Shape;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Set;

/** A network: of what wrote an output everything is drawn that leads to it. */
record NetworkSheet(Shown.Network network) implements DrawnSheet {

  @Override
  public String unit() {
    return network.unit();
  }

  @Override
  public String evaluated() {
    return network.evaluated();
  }

  @Override
  public List<String> names() {
    List<String> names = new ArrayList<>(network.outputs().values());
    names.addAll(network.before().values());
    names.addAll(network.operands().values());
    return names;
  }

  @Override
  public Position position() {
    return network.elements().get(0).head().position();
  }

  @Override
  public boolean writes(Shown.Line line, String variable) {
    return writer(variable).filter(it -> it.head().position().file().equals(line.file())
        && it.head().position().line() == line.line()).isPresent();
  }

  /** The writing element; where several do at wanted lines, the one that names the variable. */
  private Optional<Element> writer(String variable) {
    List<Element> named = network.writers().stream().filter(it -> last(words(it).name()).equals(variable)).toList();
    List<Element> found = named.isEmpty() ? network.writers() : named;
    return found.stream().skip(found.size() - 1L).findFirst().flatMap(it -> network.elements().stream()
        .filter(each -> each.head().id() == it.head().id()).findFirst());
  }

  private static String last(String path) {
    return path.substring(path.lastIndexOf('.') + 1).toUpperCase(Locale.ROOT);
  }

  @Override
  public Drawing drawing(String signal, String variable, long time, Map<String, String> values) {
    Builder builder = new Builder(values);
    Element writer = writer(variable).orElseThrow();
    builder.take(writer);
    builder.draw(writer);
    return new Drawing(network.unit() + ", network " + network.number(), signal, time, builder.boxes, builder.wires);
  }

  /** What stands at an element. */
  private record Words(Shape shape, String name, String instance, String mark) {}

  private static Words words(Element element) {
    return element.accept(new Element.Visitor<Words>() {
      private Words with(Shape shape, Fragment name, boolean negated, Edge edge, Storage storage) {
        String stored = storage == Storage.SET ? "set" : storage == Storage.RESET ? "reset" : "";
        return new Words(shape, name.text().strip(), "", negated ? "NOT" : edge == Edge.RISING ? "rises"
            : edge == Edge.FALLING ? "falls" : stored);
      }

      @Override
      public Words visit(Element.Contact e) {
        return with(Shape.CONTACT, e.variable(), e.negated(), e.edge(), Storage.NONE);
      }

      @Override
      public Words visit(Element.Coil e) {
        return with(Shape.COIL, e.variable(), e.negated(), e.edge(), e.storage());
      }

      @Override
      public Words visit(Element.Block e) {
        return new Words(Shape.BLOCK, e.type(), e.instance().map(it -> it.text().strip()).orElse(""), "");
      }

      @Override
      public Words visit(Element.Source e) {
        return with(Shape.READ, e.expression(), e.negated(), e.edge(), Storage.NONE);
      }

      @Override
      public Words visit(Element.Sink e) {
        return with(Shape.WRITTEN, e.variable(), e.negated(), e.edge(), e.storage());
      }

      @Override public Words visit(Element.LeftRail e) { return new Words(Shape.RAIL, "", "", ""); }
      @Override public Words visit(Element.RightRail e) { return new Words(Shape.RAIL, "", "", ""); }
      @Override public Words visit(Element.Label e) { return new Words(Shape.READ, e.name(), "", ""); }
      @Override public Words visit(Element.Connector e) { return new Words(Shape.WRITTEN, e.name(), "", ""); }
      @Override public Words visit(Element.Continuation e) { return new Words(Shape.READ, e.name(), "", ""); }

      @Override
      public Words visit(Element.Jump e) {
        return new Words(Shape.LEAVE, "to " + e.label(), "", e.negated() ? "NOT" : "");
      }

      @Override
      public Words visit(Element.Return e) {
        return new Words(Shape.LEAVE, "return", "", e.negated() ? "NOT" : "");
      }
    });
  }

  /** The drawing while it grows. */
  private final class Builder {
    private final Map<String, String> values;
    private final Map<Long, Integer> order = new HashMap<>();
    private final Set<Long> taken = new HashSet<>();
    private final Map<Long, Integer> indexes = new HashMap<>();
    private final List<Box> boxes = new ArrayList<>();
    private final List<Drawing.Wire> wires = new ArrayList<>();
    private int rail = -1;

    Builder(Map<String, String> values) {
      this.values = values;
      for (int i = 0; i < network.elements().size(); i++) {
        order.put(network.elements().get(i).head().id(), i);
      }
    }

    private Optional<Element> element(long id) {
      return Optional.ofNullable(order.get(id)).map(network.elements()::get);
    }

    /** Whether a wire brings what came out in the scan before: its element is evaluated later. */
    private boolean isLast(Element from, Element to) {
      boolean read = from instanceof Element.Source source && source.edge() == Edge.NONE
          || from instanceof Element.Sink sink && sink.in().links().isEmpty();
      return !read
          && order.get(from.head().id()) >= order.get(to.head().id());
    }

    /** Takes an element and all that leads to it. */
    void take(Element element) {
      if (taken.add(element.head().id())) {
        for (Pin pin : Pins.in(element)) {
          pin.links().forEach(link -> element(link.from()).ifPresent(this::take));
        }
      }
    }

    void draw(Element writer) {
      for (Element element : network.elements()) {
        if (taken.contains(element.head().id())) {
          indexes.put(element.head().id(), boxes.size());
          boxes.add(box(element, element == writer));
        }
      }
      for (Element element : network.elements()) {
        List<Pin> pins = Pins.in(element);
        for (int i = 0; i < pins.size() && taken.contains(element.head().id()); i++) {
          for (Link link : pins.get(i).links()) {
            wire(link, element, i);
          }
        }
      }
    }

    private Box box(Element element, boolean writes) {
      Words words = words(element);
      String value = value(network.operands().get(element.head().id()));
      List<Port> inputs = Pins.in(element).stream().map(pin -> new Port(pin.name(), pin.negated(), "")).toList();
      List<Port> outputs = element instanceof Element.Block block ? block.outputs().stream().map(pin ->
          new Port(pin.name(), pin.negated(), value(name(element, pin.name())))).toList()
          : List.of(new Port("", false, carried(element, "")));
      return new Box(words.shape(), words.name(), words.instance(), words.mark(), value, writes, inputs, outputs);
    }

    private String value(String name) {
      return name == null ? "" : values.getOrDefault(name, "");
    }

    /** The name of what comes out of an element. */
    private String name(Element element, String output) {
      return name(network.outputs(), element, output);
    }

    private String name(Map<Link, String> outputs, Element element, String output) {
      long id = element.head().id();
      String exact = outputs.get(new Link(id, output.toUpperCase(Locale.ROOT)));
      if (exact != null || !output.isEmpty()) {
        return exact;
      }
      return outputs.entrySet().stream().filter(it -> it.getKey().from() == id
          && !it.getKey().output().equals("ENO")).map(Map.Entry::getValue).findFirst().orElse(null);
    }

    private String carried(Element from, String output) {
      if (from instanceof Element.LeftRail) {
        return "TRUE";
      }
      String given = value(name(from, output));
      if (!given.isEmpty() || !(from instanceof Element.Source source)) {
        return given;
      }
      String read = value(network.operands().get(from.head().id()));
      String shown = read.isEmpty() ? source.expression().text().strip() : read;
      return !source.negated() ? shown : shown.equalsIgnoreCase("TRUE") ? "FALSE" : shown.equalsIgnoreCase("FALSE")
          ? "TRUE" : "";
    }

    private void wire(Link link, Element to, int input) {
      Optional<Element> from = element(link.from());
      int target = indexes.get(to.head().id());
      if (from.isEmpty()) {
        if (rail < 0) {
          rail = boxes.size();
          boxes.add(new Box(Shape.RAIL, "", "", "", "", false, List.of(), List.of(new Port("", false, "TRUE"))));
        }
        wires.add(new Drawing.Wire(rail, 0, target, input, "TRUE", false));
        return;
      }
      boolean last = isLast(from.get(), to);
      int output = from.get() instanceof Element.Block block ? output(block, link.output()) : 0;
      if (!indexes.containsKey(link.from())) {
        indexes.put(link.from(), boxes.size());
        boxes.add(box(from.get(), false));
      }
      wires.add(new Drawing.Wire(indexes.get(link.from()), output, target, input, last
          ? value(name(network.before(), from.get(), link.output())) : carried(from.get(), link.output()), last));
    }

    private static int output(Element.Block block, String name) {
      for (int i = 0; i < block.outputs().size(); i++) {
        String here = block.outputs().get(i).name();
        if (here.equalsIgnoreCase(name) || name.isEmpty() && !here.equalsIgnoreCase("ENO")) {
          return i;
        }
      }
      return 0;
    }
  }
}

package dev.pawl.grammar.logic.drawn.network;

import dev.pawl.grammar.logic.drawn.Shown;
import dev.pawl.grammar.logic.drawn.tree.Element;
import dev.pawl.grammar.logic.drawn.tree.Element.Link;
import dev.pawl.grammar.logic.drawn.tree.Element.Pin;
import dev.pawl.grammar.logic.drawn.tree.Pins;
import dev.pawl.grammar.logic.parse.Fragment;
import dev.pawl.grammar.logic.tree.Declaration;
import dev.pawl.grammar.logic.tree.Expression;
import dev.pawl.grammar.logic.tree.Name;
import dev.pawl.grammar.logic.tree.Statement;
import dev.pawl.grammar.source.Position;
import java.util.HashMap;
import java.util.Map;
import java.util.Optional;

/** Keeps what the elements of those networks come to that are to be seen; does nothing for the others. */
final class Seen {

  private final Diagram diagram;
  private final NetworkTranslator network;
  private final Calls calls;
  private final Surroundings around;
  private final Map<Integer, Shown.Network> shown = new HashMap<>();
  /** The one that is being translated; null where it is not to be seen. */
  private Shown.Network looked;

  Seen(Diagram diagram, NetworkTranslator network, Calls calls, Surroundings around) {
    this.diagram = diagram;
    this.network = network;
    this.calls = calls;
    this.around = around;
    for (Element element : diagram.elements()) {
      if (around.shown().wants(element.head().position()) && diagram.number(element) > 0
          && around.unit().kind() != Declaration.Kind.FUNCTION) {
        shown.computeIfAbsent(diagram.number(element), number -> around.shown().network(around.unit().name().text(),
            number, element.head().position())).writers().add(element);
      }
    }
  }

  /** Keeps what an element is evaluated with. */
  void before(Element element) {
    looked = shown.get(diagram.number(element));
    if (looked == null) {
      return;
    }
    if (looked.elements().isEmpty()) {
      Position position = element.head().position();
      network.out().addAll(around.seen(new Name(looked.evaluated(), position), Terms.truth(true, position), position));
    }
    looked.elements().add(element);
    if (element instanceof Element.Contact contact) {
      look(element, contact.variable());
    } else if (element instanceof Element.Source source) {
      look(element, source.expression());
    }
    for (Pin pin : Pins.in(element)) {
      for (Link link : pin.links()) {
        diagram.element(link.from()).ifPresent(source -> before(link, source));
      }
    }
  }

  private void before(Link link, Element source) {
    if (!network.isRead(link)) {
      if (!network.wasEvaluated(link.from())) {
        lookBack(network.output(link), source);
      }
    } else if (!looked.elements().contains(source)) {
      looked.elements().add(source);
      look(source, source instanceof Element.Source read ? read.expression() : written(source).orElseThrow());
    }
  }

  /** Keeps what a variable that was written is now. */
  void after(Element element) {
    if (looked != null) {
      written(element).ifPresent(variable -> look(element, variable));
    }
  }

  /** Keeps what came out in the scan before. */
  private void lookBack(Link output, Element source) {
    Position position = source.head().position();
    Optional<Expression> value = network.lastTime(output).map(Terms::name);
    if (value.isEmpty() && source instanceof Element.Block block && calls.isInstance(block)) {
      value = Optional.of(calls.output(block, output.output(), position));
    }
    if (value.isPresent()) {
      Name name = around.shown().name(position);
      network.out().addAll(around.seen(name, value.get(), position));
      looked.before().put(output, name.text());
    }
  }

  private static Optional<Fragment> written(Element element) {
    return element instanceof Element.Coil coil ? Optional.of(coil.variable())
        : element instanceof Element.Sink sink ? Optional.of(sink.variable()) : Optional.empty();
  }

  /** Keeps what a variable is now; what has to be worked out is not looked at, since that can fail. */
  private void look(Element element, Fragment variable) {
    Expression path = around.expression(variable, "this");
    if (Reads.isPath(path)) {
      Name name = around.shown().name(element.head().position());
      network.out().addAll(around.seen(name, path, element.head().position()));
      looked.operands().put(element.head().id(), name.text());
    }
  }

  /** Puts what comes out of an element on a wire and keeps it; nothing where it is fixed or not to be seen. */
  Optional<Expression> carried(Link output, Expression value, Optional<Expression> guard, Position position) {
    if (looked == null || Reads.of(value).isFixed()) {
      return Optional.empty();
    }
    Name carried = around.hidden().fresh("seen", position);
    network.out().add(new Statement.Wire(carried, value, guard, position));
    Name name = around.shown().name(position);
    network.out().addAll(around.seen(name, Terms.name(carried), position));
    looked.outputs().put(output, name.text());
    return Optional.of(Terms.name(carried));
  }
}

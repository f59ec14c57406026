package dev.pawl.grammar.logic.drawn.network;

import dev.pawl.grammar.logic.drawn.tree.Element;
import dev.pawl.grammar.logic.drawn.tree.Element.Head;
import dev.pawl.grammar.logic.drawn.tree.Element.Pin;
import java.util.Optional;
import java.util.function.UnaryOperator;

/** Copies of elements with another head, or other wires. */
final class Renumbered implements Element.Visitor<Element> {

  private final UnaryOperator<Head> heads;
  private final UnaryOperator<Pin> pins;

  private Renumbered(UnaryOperator<Head> heads, UnaryOperator<Pin> pins) {
    this.heads = heads;
    this.pins = pins;
  }

  /** The element with 0 taken for no number of execution. */
  static Element of(Element element) {
    Head head = element.head();
    return head.order().filter(order -> order == 0).isEmpty() ? element : element.accept(new Renumbered(it ->
        new Head(it.id(), it.network(), it.x(), it.y(), Optional.empty(), it.position()), UnaryOperator.identity()));
  }

  /** The element with its wires as they are followed to their ends. */
  static Element linked(Element element, UnaryOperator<Pin> followed) {
    return element.accept(new Renumbered(UnaryOperator.identity(), followed));
  }

  private Head head(Element element) {
    return heads.apply(element.head());
  }

  private Pin pin(Pin pin) {
    return pins.apply(pin);
  }

  @Override
  public Element visit(Element.Contact e) {
    return new Element.Contact(head(e), e.variable(), e.negated(), e.edge(), pin(e.in()));
  }

  @Override
  public Element visit(Element.Coil e) {
    return new Element.Coil(head(e), e.variable(), e.negated(), e.edge(), e.storage(), pin(e.in()));
  }

  @Override
  public Element visit(Element.Block e) {
    return new Element.Block(head(e), e.type(), e.instance(), e.inputs().stream().map(this::pin).toList(),
        e.passed().stream().map(this::pin).toList(), e.outputs());
  }

  @Override
  public Element visit(Element.Source e) {
    return new Element.Source(head(e), e.expression(), e.negated(), e.edge());
  }

  @Override
  public Element visit(Element.Sink e) {
    return new Element.Sink(head(e), e.variable(), e.negated(), e.edge(), e.storage(), pin(e.in()), e.passes());
  }

  @Override
  public Element visit(Element.Jump e) {
    return new Element.Jump(head(e), e.label(), e.negated(), pin(e.in()));
  }

  @Override
  public Element visit(Element.Return e) {
    return new Element.Return(head(e), e.negated(), pin(e.in()));
  }

  @Override
  public Element visit(Element.Connector e) {
    return new Element.Connector(head(e), e.name(), pin(e.in()));
  }

  @Override public Element visit(Element.LeftRail e) { return new Element.LeftRail(head(e)); }
  @Override public Element visit(Element.RightRail e) { return new Element.RightRail(head(e)); }
  @Override public Element visit(Element.Label e) { return new Element.Label(head(e), e.name()); }
  @Override public Element visit(Element.Continuation e) { return new Element.Continuation(head(e), e.name()); }
}

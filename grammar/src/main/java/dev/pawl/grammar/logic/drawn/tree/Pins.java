package dev.pawl.grammar.logic.drawn.tree;

import dev.pawl.grammar.logic.drawn.tree.Element.Pin;
import java.util.ArrayList;
import java.util.List;

/** The pins at which an element takes something. */
public final class Pins implements Element.Question<List<Pin>> {

  private static final Pins IN = new Pins();

  private Pins() {}

  public static List<Pin> in(Element element) {
    return element.accept(IN);
  }

  @Override public List<Pin> otherwise(Element e) { return List.of(); }
  @Override public List<Pin> visit(Element.Contact e) { return List.of(e.in()); }
  @Override public List<Pin> visit(Element.Coil e) { return List.of(e.in()); }
  @Override public List<Pin> visit(Element.Sink e) { return List.of(e.in()); }
  @Override public List<Pin> visit(Element.Jump e) { return List.of(e.in()); }
  @Override public List<Pin> visit(Element.Return e) { return List.of(e.in()); }
  @Override public List<Pin> visit(Element.Connector e) { return List.of(e.in()); }

  @Override
  public List<Pin> visit(Element.Block e) {
    List<Pin> pins = new ArrayList<>(e.inputs());
    pins.addAll(e.passed());
    return pins;
  }
}

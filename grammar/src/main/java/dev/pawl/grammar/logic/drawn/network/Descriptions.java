package dev.pawl.grammar.logic.drawn.network;

import dev.pawl.grammar.logic.drawn.tree.Element;
import dev.pawl.grammar.logic.parse.Fragment;

/** What messages call an element. */
final class Descriptions implements Element.Visitor<String> {

  static final Descriptions OF = new Descriptions();

  private Descriptions() {}

  private static String words(Fragment fragment) {
    return fragment.text().isBlank() ? "without a variable" : fragment.text().strip();
  }

  @Override public String visit(Element.Contact e) { return "contact " + words(e.variable()); }
  @Override public String visit(Element.Coil e) { return "coil " + words(e.variable()); }
  @Override public String visit(Element.Source e) { return "input " + words(e.expression()); }
  @Override public String visit(Element.Sink e) { return "output " + words(e.variable()); }
  @Override public String visit(Element.LeftRail e) { return "left power rail"; }
  @Override public String visit(Element.RightRail e) { return "right power rail"; }
  @Override public String visit(Element.Jump e) { return "jump to " + e.label(); }
  @Override public String visit(Element.Label e) { return "label " + e.name(); }
  @Override public String visit(Element.Return e) { return "return"; }
  @Override public String visit(Element.Connector e) { return "connector " + e.name(); }
  @Override public String visit(Element.Continuation e) { return "continuation " + e.name(); }

  @Override
  public String visit(Element.Block e) {
    return "block " + e.type() + e.instance().map(it -> " " + words(it)).orElse("");
  }
}

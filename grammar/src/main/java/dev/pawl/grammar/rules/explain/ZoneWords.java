package dev.pawl.grammar.rules.explain;

import dev.pawl.grammar.rules.model.RuleBook;
import dev.pawl.grammar.rules.model.Zone;

/** What a zone is bounded by, in one line. */
public final class ZoneWords {

  private final FormulaWriter formulas;

  public ZoneWords(RuleBook book) {
    this.formulas = new FormulaWriter(book);
  }

  /** Such as {@code lift: in by ↑base_flag, out by ↑¬crest_flag, holds 1, starts with 0}. */
  public String say(Zone zone) {
    return zone.name() + ": in by " + boundary(zone.entry()) + ", out by " + boundary(zone.exit()) + ", holds "
        + zone.holds() + (zone.startsWith().isPresent() ? ", starts with " + zone.startsWith().getAsInt() : "");
  }

  private String boundary(Zone.Boundary boundary) {
    return boundary.match(edge -> edge.event().accept(formulas), pair -> pair.outer().accept(formulas) + " then "
        + pair.inner().accept(formulas));
  }
}

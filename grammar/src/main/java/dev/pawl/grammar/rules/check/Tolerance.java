package dev.pawl.grammar.rules.check;

import dev.pawl.grammar.rules.model.Dimension;

/** The tolerance of a rule while what it requires is checked; remembers whether any comparison took it. */
final class Tolerance {

  /** The tolerance of rules that state none. */
  static final Tolerance NONE = new Tolerance(0, Dimension.NONE);

  private final double amount;
  private final Dimension dimension;
  private boolean taken;

  Tolerance(double amount, Dimension dimension) {
    this.amount = amount;
    this.dimension = dimension;
  }

  /** The tolerance for a comparison of numbers of the given dimension. */
  double take(Dimension compared) {
    if (!compared.equals(dimension)) {
      return 0;
    }
    taken = true;
    return amount;
  }

  boolean isTaken() {
    return taken;
  }
}

package dev.pawl.grammar.rules.tree;

import java.util.Optional;

/** The operators that stand between two operands; those that bind tighter come first. */
public enum BinaryOperator {
  MULTIPLY("*", Binding.PRODUCT),
  DIVIDE("/", Binding.PRODUCT),
  ADD("+", Binding.SUM),
  SUBTRACT("-", Binding.SUM),
  EQUAL("=", Binding.COMPARISON),
  NOT_EQUAL("!=", Binding.COMPARISON),
  LESS("<", Binding.COMPARISON),
  AT_MOST("<=", Binding.COMPARISON),
  GREATER(">", Binding.COMPARISON),
  AT_LEAST(">=", Binding.COMPARISON),
  SINCE("since", Binding.TEMPORAL),
  AND("and", Binding.CONJUNCTION),
  OR("or", Binding.DISJUNCTION),
  IMPLIES("implies", Binding.IMPLICATION);

  private final String symbol;
  private final Binding binding;

  BinaryOperator(String symbol, Binding binding) {
    this.symbol = symbol;
    this.binding = binding;
  }

  public String symbol() {
    return symbol;
  }

  public Binding binding() {
    return binding;
  }

  public boolean isComparison() {
    return binding == Binding.COMPARISON;
  }

  /** Whether its operands are conditions. */
  public boolean isLogic() {
    return binding.compareTo(Binding.TEMPORAL) >= 0;
  }

  public static Optional<BinaryOperator> of(String symbol) {
    for (BinaryOperator operator : values()) {
      if (operator.symbol.equals(symbol)) {
        return Optional.of(operator);
      }
    }
    return Optional.empty();
  }
}

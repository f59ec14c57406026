package dev.pawl.engine.operator;

import dev.pawl.engine.graph.NumNode;

/** A number that rests on one other. */
abstract class NumOperator extends NumNode {

  final NumNode operand;

  NumOperator(NumNode operand) {
    this.operand = operand;
  }

  @Override
  protected final void connect() {
    dependOn(operand);
  }
}

package dev.pawl.engine.operator;

import dev.pawl.engine.graph.BoolNode;

/** A truth value that rests on one other. */
abstract class BoolOperator extends BoolNode {

  final BoolNode operand;

  BoolOperator(BoolNode operand) {
    this.operand = operand;
  }

  @Override
  protected void connect() {
    dependOn(operand);
  }
}

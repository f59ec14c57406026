package dev.pawl.engine.duty;

import dev.pawl.engine.RuleOutcome;
import dev.pawl.engine.graph.Node;

/** A node that judges one rule. Nothing depends on it. */
public abstract class Judge extends Node {

  final Tally tally = new Tally();
  final Margins margins;
  final CaseFile cases;
  private final int rule;

  Judge(int rule, CaseFile cases, String marginUnit) {
    this.rule = rule;
    this.cases = cases;
    this.margins = new Margins(marginUnit);
  }

  /** Ends what is still waiting; {@code last} is the last moment of the trace, which has been evaluated. */
  public abstract void finish(long last);

  /** What the trace said about the rule. To be asked after {@link #finish}. */
  public RuleOutcome outcome() {
    return new RuleOutcome(rule, tally.obligations(), margins.margin(), tally.watched);
  }
}

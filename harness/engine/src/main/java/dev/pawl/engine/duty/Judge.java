package dev.pawl.engine.duty;

import dev.pawl.engine.RuleOutcome;
import dev.pawl.engine.Tried;
import dev.pawl.engine.graph.Node;
import java.util.List;
import java.util.OptionalLong;
import java.util.function.Supplier;

/** A node that judges one rule. Nothing depends on it. */
public abstract class Judge extends Node {

  final Tally tally = new Tally();
  final Margins margins;
  final CaseFile cases;
  private final int rule;
  private List<Supplier<Tried>> trials = List.of();

  Judge(int rule, CaseFile cases, String marginUnit) {
    this.rule = rule;
    this.cases = cases;
    this.margins = new Margins(marginUnit);
  }

  /** Has the outcome tell of trials: of those that are followed, and with null of those by the rule's own trigger. Called once. */
  public final void tellOf(List<Trial> stated) {
    trials = stated.stream().<Supplier<Tried>>map(trial -> trial == null ? this::triedByTrigger : trial::tried).toList();
  }

  private Tried triedByTrigger() {
    return new Tried(tally.met, OptionalLong.empty());
  }

  /** Ends what is still waiting; {@code last} is the last moment of the trace, which has been evaluated. */
  public abstract void finish(long last);

  /** What the trace said about the rule. To be asked after {@link #finish}. */
  public RuleOutcome outcome() {
    return new RuleOutcome(rule, tally.obligations(), margins.margin(), trials.stream().map(Supplier::get).toList(), tally.watched);
  }
}

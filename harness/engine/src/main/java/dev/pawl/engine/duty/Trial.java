package dev.pawl.engine.duty;

import dev.pawl.engine.Tried;
import dev.pawl.engine.graph.Begun;
import dev.pawl.engine.graph.BoolNode;
import dev.pawl.engine.graph.Event;
import dev.pawl.engine.graph.Moments;
import dev.pawl.engine.graph.Node;
import dev.pawl.engine.operator.Happening;
import dev.pawl.grammar.rules.model.Truth;
import java.util.List;
import java.util.OptionalLong;

/** Counts how often something happens that asks a rule for what it forbids. */
public final class Trial extends Node {

  private final Event event;
  private final Happening happening;
  private final Begun begun;
  private final List<BoolNode> granted;
  private final List<BoolNode> refused;
  private final Stay stay;
  private long times;
  private long first = Moments.NEVER;
  private long latest = Moments.NEVER;
  private long doubtedUntil = Moments.NEVER;

  /**
   * A trial.
   *
   * @param event what asks
   * @param begun it counts only from the rule's beginning on
   * @param granted it counts only while all of these are true
   * @param refused it counts only while all of these are false
   * @param stay it counts only while something has to stay so; null where that does not matter
   */
  public Trial(Event event, Begun begun, List<BoolNode> granted, List<BoolNode> refused, Stay stay) {
    this.event = event;
    this.happening = new Happening(event, this);
    this.begun = begun;
    this.granted = granted;
    this.refused = refused;
    this.stay = stay;
  }

  @Override
  protected void connect() {
    dependOn(event);
  }

  @Override
  public boolean update(long moment) {
    happening.follow(moment);
    if (happening.happens() && begun.value == Truth.T && moment > doubtedUntil && counts()) {
      first = times == 0 ? moment : first;
      latest = moment;
      times++;
    }
    return false;
  }

  private boolean counts() {
    for (BoolNode condition : granted) {
      if (condition.value != Truth.T) {
        return false;
      }
    }
    for (BoolNode condition : refused) {
      if (condition.value != Truth.F) {
        return false;
      }
    }
    return stay == null || stay.isAsked();
  }

  long times() {
    return times;
  }

  /** Takes back what does not count, up to a moment. */
  void takeBack(long remaining, long moment) {
    times = remaining;
    doubtedUntil = moment;
  }

  /** Ends the trace: nobody saw what came of a trial at its last moment. */
  public void finish(long last) {
    times -= latest == last ? 1 : 0;
  }

  Tried tried() {
    return new Tried(times, times == 0 ? OptionalLong.empty() : OptionalLong.of(Moments.nanoseconds(first)));
  }
}

package dev.pawl.engine.judge;

import dev.pawl.engine.Tried;
import dev.pawl.engine.graph.Begun;
import dev.pawl.engine.graph.BoolNode;
import dev.pawl.engine.graph.Event;
import dev.pawl.engine.graph.LongQueue;
import dev.pawl.engine.graph.Moments;
import dev.pawl.engine.graph.Node;
import dev.pawl.engine.operator.EventTest;
import dev.pawl.grammar.rules.model.Truth;
import java.util.List;
import java.util.OptionalLong;

/** Counts how often something happens that asks a rule for what it forbids. */
public final class Trial extends Node {

  /**
   * A condition beside what asks.
   *
   * @param order how near the asking the order is open: a condition that may have been otherwise then does not count
   */
  public record Aside(BoolNode condition, Order order) {

    private boolean is(int truth, Begun begun, long moment) {
      return condition.value == truth && !order.contests(condition, begun, moment);
    }
  }

  private final Event event;
  private final EventTest happening;
  private final Begun begun;
  private final List<Aside> granted;
  private final List<Aside> refused;
  private final Stay stay;
  private final long answer;
  private long times;
  private long first = Moments.NEVER;
  /** Those of which it is not certain yet that the trace shows what came of them. */
  private final LongQueue latest = new LongQueue(1);
  private long doubtedUntil = Moments.NEVER;

  /**
   * A trial.
   *
   * @param event what asks
   * @param begun it counts only from the rule's beginning on
   * @param granted it counts only while all of these are true
   * @param refused it counts only while all of these are false
   * @param stay it counts only while something has to stay so; null where that does not matter
   * @param answer it counts only with more moments than these after it in the trace
   */
  public Trial(Event event, Begun begun, List<Aside> granted, List<Aside> refused, Stay stay, long answer) {
    this.event = event;
    this.happening = new EventTest(event, this);
    this.begun = begun;
    this.granted = granted;
    this.refused = refused;
    this.stay = stay;
    this.answer = answer;
  }

  @Override
  protected void connect() {
    dependOn(event);
  }

  @Override
  public boolean update(long moment) {
    happening.follow(moment);
    while (!latest.isEmpty() && latest.get(0, 0) < moment - answer) {
      latest.removeFirst();
    }
    if (happening.happens() && begun.value == Truth.T && moment > doubtedUntil && counts(moment)) {
      first = times == 0 ? moment : first;
      latest.set(latest.add(), 0, moment);
      times++;
    }
    return false;
  }

  private boolean counts(long moment) {
    for (Aside condition : granted) {
      if (!condition.is(Truth.T, begun, moment)) {
        return false;
      }
    }
    for (Aside condition : refused) {
      if (!condition.is(Truth.F, begun, moment)) {
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
    for (; times > remaining; times--) {
      if (!latest.isEmpty()) {
        latest.removeLast();
      }
    }
    doubtedUntil = moment;
  }

  /** Ends the trace: nobody saw what came of a trial shortly before. */
  public void finish(long last) {
    while (!latest.isEmpty() && latest.get(0, 0) < last - answer) {
      latest.removeFirst();
    }
    times -= latest.size();
  }

  Tried tried() {
    return new Tried(times, times == 0 ? OptionalLong.empty() : OptionalLong.of(Moments.nanoseconds(first)));
  }
}

package dev.pawl.engine.operator;

import dev.pawl.engine.graph.Begun;
import dev.pawl.engine.graph.BoolNode;
import dev.pawl.engine.graph.Event;
import dev.pawl.engine.graph.Kleene;
import dev.pawl.engine.graph.Moments;
import dev.pawl.engine.graph.Node;
import dev.pawl.grammar.rules.model.Truth;

/**
 * The test whether an event happens: its expression rises. It possibly happens where that is unknown, for as long as
 * that is. For the node that depends on the event, which is evaluated at each moment at which an answer becomes
 * another.
 */
public final class EventTest {

  private final Node owner;
  private final BoolNode expression;
  private final Begun begun;
  /** The signal whose turn it is; null for other expressions. */
  private final Inputs.BoolSignal signal;
  private final boolean falling;
  private final boolean momentary;
  private int before;
  private long followed = Moments.NEVER;
  private int truth = Truth.F;
  private boolean stands;
  private long lastUnclear = Moments.NEVER;

  /** @param owner the node that depends on the event */
  public EventTest(Event event, Node owner) {
    this.owner = owner;
    expression = event.source();
    begun = event.begun();
    signal = event.isTurn() ? (Inputs.BoolSignal) expression : null;
    falling = event.kind() == Event.Kind.SIGNAL_FALLS;
    momentary = expression.isMomentary();
    before = expression.value;
  }

  /** Looks at the moment being evaluated. To be called at every evaluation. */
  public void follow(long moment) {
    lastUnclear = isUnclear() ? moment - 1 : lastUnclear;
    int now = expression.value;
    boolean hasBegun;
    if (signal == null) {
      boolean hadBegun = begun.at() < moment;
      hasBegun = begun.at() <= moment;
      // That a momentary one falls back goes without saying: nobody is evaluated for it.
      boolean fellBack = momentary && before == Truth.T && followed < moment - 1;
      int was = fellBack ? Truth.F : before;
      truth = Edges.rise(was, now, false, hadBegun);
      stands = now == Truth.T && was == Truth.U && !hadBegun;
      before = now;
      followed = moment;
    } else {
      hasBegun = signal.hasBegun(moment);
      truth = signal.turning(falling, moment);
    }
    lastUnclear = isUnclear() ? moment : lastUnclear;
    if (isUnclear() != Kleene.isUnknown(Edges.atRest(now, hasBegun))) {
      owner.comeBack();
    }
  }

  /** Whether the event happens at the moment of the last call. */
  public boolean happens() {
    return truth == Truth.T;
  }

  /** Whether it possibly happens at the moment of the last call. */
  public boolean isUnclear() {
    return Kleene.isUnknown(truth);
  }

  /** It possibly happened at a moment before that of the last call, when nobody had looked yet. */
  void wasUnclear(long moment) {
    lastUnclear = Math.max(lastUnclear, moment);
  }

  /** The last moment up to the last call at which it possibly happened; {@link Moments#NEVER} for none. */
  public long lastUnclear() {
    return lastUnclear;
  }

  /** Whether at the moment of the last call it stands for the first time, having happened before anybody looked. */
  public boolean stands() {
    return stands;
  }
}

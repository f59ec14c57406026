package dev.pawl.engine.operator;

import dev.pawl.engine.graph.BoolNode;
import dev.pawl.engine.graph.Event;
import dev.pawl.engine.graph.Kleene;
import dev.pawl.grammar.rules.model.Truth;

/**
 * The test whether an event happens: its expression is true and was not at the moment before. It possibly happens when the expression
 * becomes unknown after having been false or true. Nothing has happened before the start. For the node that depends on the event.
 */
public final class Happening {

  private final BoolNode expression;
  /** The signal whose turn it is; null for other expressions. */
  private final Inputs.BoolSignal signal;
  private final boolean falling;
  private final boolean momentary;
  private int before = Truth.F;
  private boolean started;
  private boolean sure;
  private boolean possible;
  private boolean unclear;

  public Happening(Event event) {
    expression = event.source();
    signal = event.isTurn() ? (Inputs.BoolSignal) expression : null;
    falling = event.kind() == Event.Kind.SIGNAL_FALLS;
    momentary = expression.isMomentary();
  }

  /** Looks at the moment being evaluated. To be called at every evaluation. */
  public void follow(long moment) {
    if (signal == null) {
      int truth = expression.value;
      compare(before, truth);
      // That a momentary one falls back goes without saying: nobody is evaluated for it.
      before = momentary && truth == Truth.T ? Truth.F : truth;
    } else {
      followTurn(moment);
    }
  }

  private void followTurn(long moment) {
    int last = signal.before(moment);
    int now = signal.value;
    if (Kleene.isUnknown(last) || Kleene.isUnknown(now)) {
      compare(started ? signal.turningBefore(falling, moment) : Truth.F, signal.turning(falling, moment));
    } else {
      sure = last != now && falling == (now == Truth.F);
      possible = false;
      unclear = false;
    }
    started = true;
  }

  private void compare(int last, int now) {
    sure = now == Truth.T && last != Truth.T;
    unclear = Kleene.isUnknown(now);
    possible = unclear && !Kleene.isUnknown(last);
  }

  /** Whether the event happens at the moment of the last call. */
  public boolean happens() {
    return sure;
  }

  /** Whether it is not known at the moment of the last call that it does not happen. */
  public boolean isUnclear() {
    return unclear;
  }

  /** Whether it is a signal that turns, and that is known now: then at the next moment it surely does not. */
  public boolean isOverNext() {
    return signal != null && !Kleene.isUnknown(signal.value);
  }

  /** Whether it possibly happens at the moment of the last call. */
  public boolean possiblyHappens() {
    return possible;
  }
}

package dev.pawl.engine.operator;

import dev.pawl.engine.EventSink;
import dev.pawl.engine.graph.BoolNode;
import dev.pawl.engine.graph.SignalState;
import dev.pawl.grammar.rules.model.Truth;

/** Whether all of some signals have had a value before this moment. It costs nothing any more when they have. */
public final class Begun extends BoolNode {

  private final SignalState[] signals;
  private final boolean[] known;
  private boolean all;

  /** Of signals that have nodes. */
  public Begun(SignalState[] signals) {
    this.signals = signals;
    this.known = new boolean[signals.length];
  }

  @Override
  protected void connect() {
    for (SignalState signal : signals) {
      dependOnRise(signal.node);
    }
  }

  @Override
  public boolean update(long moment) {
    if (all) {
      return become(Truth.T);
    }
    all = true;
    for (int i = 0; i < signals.length; i++) {
      if (known[i]) {
        continue;
      }
      known[i] = signals[i].value != EventSink.UNKNOWN;
      all &= known[i];
      if (known[i]) {
        heed(signals[i].node, false);
      }
    }
    if (all) {
      graph.wakeAfter(this);
    }
    return become(Truth.F);
  }
}

package dev.pawl.engine.graph;

import dev.pawl.engine.EventSink;
import dev.pawl.grammar.rules.model.Truth;

/**
 * Whether all of some signals have had a value: what reads them has begun then. It has evaluated what depends on it at
 * that moment and at the one after, and costs nothing any more from then on.
 */
public final class Begun extends BoolNode {

  private final SignalState[] signals;
  private final boolean[] known;
  private long at = Moments.FOREVER;

  /** Of signals that have nodes. */
  public Begun(SignalState[] signals) {
    this.signals = signals;
    this.known = new boolean[signals.length];
    this.value = Truth.F;
  }

  /**
   * The moment at which the last of the signals had its first value; {@link Moments#FOREVER} as long as one has none.
   */
  public long at() {
    return at;
  }

  @Override
  protected void connect() {
    for (SignalState signal : signals) {
      dependOnRise(signal.node);
    }
  }

  @Override
  public boolean update(long moment) {
    if (at != Moments.FOREVER) {
      return true;
    }
    boolean all = true;
    for (int i = 0; i < signals.length; i++) {
      if (!known[i]) {
        known[i] = signals[i].value != EventSink.UNKNOWN;
        all &= known[i];
        if (known[i]) {
          heed(signals[i].node, false);
        }
      }
    }
    if (all) {
      at = moment;
      comeBack();
    }
    return become(all ? Truth.T : Truth.F);
  }
}

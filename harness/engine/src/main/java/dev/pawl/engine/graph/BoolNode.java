package dev.pawl.engine.graph;

import dev.pawl.grammar.rules.model.Truth;
import java.util.List;

/**
 * A node with a truth value, as one of the codes of {@link Truth}. Before the start it is unknown, but for what needs
 * no signal.
 */
public abstract class BoolNode extends Node {

  public int value = Truth.U;

  /** Since when it has had its value, a moment; {@link Moments#NEVER} where it always had it. */
  private long since = Moments.NEVER;
  /** What it was before. */
  private int before = Truth.U;

  /** Whether it is true for single moments only: then {@link Graph#raise} sees to its falling back. */
  public boolean isMomentary() {
    return false;
  }

  /** Sets the value and says whether that changed it. */
  protected final boolean become(int truth) {
    boolean changed = truth != value;
    if (changed) {
      before = value;
      value = truth;
      // One that has been momentarily true, and is so again at the very next moment, has not changed in between.
      since = truth == Truth.T && since == graph.present() && isMomentary() ? since - 1 : graph.present();
    }
    return changed;
  }

  /** A momentary one, having been true, is so no longer. */
  final void fallBack() {
    before = Truth.T;
    value = Truth.F;
    since++;
  }

  /** Since when it has had its value, a moment. */
  public final long since() {
    return since;
  }

  /** The condition as it seems to be, where it may also waver. */
  public BoolNode seen() {
    return this;
  }

  /**
   * Whether it may have been otherwise at a moment that is being evaluated, since it changed after an earlier one: at
   * the moment itself too where values of one moment are {@code scattered}. A change from borderline that is due to
   * time, and to none of the signals behind it, has been allowed for.
   */
  public boolean mayHaveBeenOtherwise(long after, long moment, boolean scattered, List<SignalState> signals) {
    return since > after && (scattered || since < moment)
        && (before != Truth.B || SignalState.lastChange(signals) >= since);
  }

  /** When it last wavered, keeping its value though it may have been otherwise; {@link Moments#NEVER} for never. */
  public long wavered() {
    return Moments.NEVER;
  }

  /** What it was before it had its value. */
  public final int before() {
    return before;
  }

  /** It has turned back, within a moment, to what it was. */
  protected final void keepSince(long moment) {
    since = moment;
  }
}

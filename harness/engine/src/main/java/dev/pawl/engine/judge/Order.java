package dev.pawl.engine.judge;

import dev.pawl.engine.graph.Begun;
import dev.pawl.engine.graph.BoolNode;
import dev.pawl.engine.graph.SignalState;
import dev.pawl.grammar.rules.model.Truth;
import java.util.List;

/**
 * How near an event a condition's change leaves open which of them came first, in moments.
 *
 * @param before a change that came less than this before the event may have come after it
 * @param after one that came less than this after the event may have come before it
 * @param scattered whether that is so of the values of one instant too, which otherwise are simultaneous
 * @param signals behind the condition
 */
public record Order(long before, long after, boolean scattered, List<SignalState> signals) {

  /** The order is what it seems to be. */
  public static final Order KNOWN = new Order(0, 0, false, List.of());

  /**
   * The same of an event that only possibly happens, of which there is no image, and after which nothing is waited for.
   */
  Order ofPossible() {
    return new Order(before, 0, true, signals);
  }

  /** The same, but a change that came less than this after the event may have come before it. */
  public Order orAfter(long least) {
    return new Order(before, Math.max(after, least), scattered, signals);
  }

  /**
   * Whether a condition may have been otherwise when the event happened that is seen at a moment. A change before the
   * rule has begun is none, and one from borderline that is due to time has been allowed for.
   */
  boolean contests(BoolNode condition, Begun begun, long moment) {
    long changed = condition.seen().since();
    long near = Math.max(begun.at(), moment - before);
    return changed > near && (scattered || changed < moment)
        && (condition.seen().before() != Truth.B || SignalState.lastChange(signals) >= changed)
        || condition.wavered() > near;
  }

  /** From the event up to where what is so was surely not so before it only. */
  long surely() {
    return Math.max(after - 1, 0);
  }
}

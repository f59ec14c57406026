package dev.pawl.engine.judge;

import dev.pawl.engine.graph.Begun;
import dev.pawl.engine.graph.BoolNode;
import dev.pawl.engine.graph.Kleene;
import dev.pawl.engine.graph.SignalState;
import java.util.List;

/**
 * How near an event a condition's change leaves open which of them came first, in moments.
 *
 * @param before a change that came less than this before the event may have come after it
 * @param after one that came less than this after the event may have come before it
 * @param scattered whether that is so of the values of one instant too, which otherwise are simultaneous
 * @param image whether what the condition becomes in the event's image, it was then for certain
 * @param signals behind the condition
 */
public record Order(long before, long after, boolean scattered, boolean image, List<SignalState> signals) {

  /** The order is what it seems to be. */
  public static final Order KNOWN = new Order(0, 0, false, false, List.of());

  /**
   * The same of an event that only possibly happens, of which there is no image, and after which nothing is waited for.
   */
  Order ofPossible() {
    return new Order(before, 0, true, false, signals);
  }

  /** The same, but a change that came less than this after the event may have come before it. */
  public Order orAfter(long least) {
    return new Order(before, Math.max(after, least), scattered, image, signals);
  }

  /** The same, and what the condition becomes in the event's image, it was then for certain. */
  public Order inImage() {
    return new Order(before, after, scattered, true, signals);
  }

  /** Whether a condition became what it is in the image of the event that is seen at a moment. */
  boolean shows(BoolNode condition, Begun begun, long moment) {
    return image && moment > begun.at() && condition.since() == moment && !Kleene.isUnknown(condition.value)
        && condition.before() == Kleene.not(condition.value);
  }

  /**
   * Whether a condition may have been otherwise when the event happened that is seen at a moment. A change before the
   * rule has begun is none.
   */
  boolean contests(BoolNode condition, Begun begun, long moment) {
    long near = Math.max(begun.at(), moment - before);
    return condition.mayHaveBeenOtherwise(near, moment, scattered, signals) || condition.wavered() > near;
  }

  /** From the event up to where what is so was surely not so before it only. */
  long surely() {
    return Math.max(after - 1, 0);
  }
}

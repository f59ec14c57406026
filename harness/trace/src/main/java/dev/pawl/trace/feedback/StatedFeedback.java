package dev.pawl.trace.feedback;

import java.util.Map;
import java.util.Set;

/**
 * What bindings state about feedback, by index of the signal.
 *
 * @param follows the outputs that a signal follows; none for one that follows nothing
 * @param idle outputs that move nothing: lamps and displays
 * @param late nanoseconds by which an output may come sooner or later than recorded
 * @param off how far a number may be from the recorded one, in SI base units
 */
public record StatedFeedback(Map<Integer, Set<Integer>> follows, Set<Integer> idle, Map<Integer, Long> late,
    Map<Integer, Double> off) {

  public static final StatedFeedback NONE = new StatedFeedback(Map.of(), Set.of(), Map.of(), Map.of());

  public StatedFeedback {
    follows = Map.copyOf(follows);
    idle = Set.copyOf(idle);
    late = Map.copyOf(late);
    off = Map.copyOf(off);
  }
}

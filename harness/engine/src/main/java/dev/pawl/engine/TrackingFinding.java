package dev.pawl.engine;

import java.util.List;
import java.util.OptionalLong;

/**
 * A zone's count that cannot be right.
 *
 * @param zone index of the zone
 * @param kind what was seen
 * @param time nanoseconds
 * @param since nanoseconds from which on the count may have been wrong; empty for from the trace's start on
 * @param evidence the events behind it
 */
public record TrackingFinding(int zone, Kind kind, long time, OptionalLong since, List<Evidence> evidence) {

  public TrackingFinding {
    evidence = List.copyOf(evidence);
  }

  /** What was seen. */
  public enum Kind {
    /** A train left a zone that held none. */
    LEFT_EMPTY("left-empty-zone"),
    /** A train entered a zone that held all it may. */
    OVERFILLED("entered-full-zone"),
    /** Two flags of one boundary changed in an order that no train can cause. */
    IMPOSSIBLE_ORDER("impossible-flag-order");

    private final String label;

    Kind(String label) {
      this.label = label;
    }

    public String label() {
      return label;
    }
  }
}

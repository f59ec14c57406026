package dev.pawl.engine;

import java.util.List;

/**
 * An obligation that was not met, or could not be decided.
 *
 * @param rule index of the rule
 * @param kind what happened
 * @param trigger nanoseconds, when the obligation arose
 * @param time nanoseconds, when it was broken, or became undecidable; for a missed deadline the deadline
 * @param justAfter whether it became so just after {@code time} rather than at it
 * @param deadline nanoseconds, the deadline; equal to {@code time} where the form has none
 * @param evidence the events behind it
 */
public record Finding(int rule, Kind kind, long trigger, long time, boolean justAfter, long deadline,
    List<Evidence> evidence) {

  public Finding {
    evidence = List.copyOf(evidence);
  }

  /** What happened to the obligation. The first group breaks the rule, the second leaves it undecided. */
  public enum Kind {
    /** Not true at the trigger instant. */
    NOT_AT_TRIGGER("not-at-trigger"),
    /** Not true in time. */
    NO_RESPONSE("no-response"),
    /** Did not stay true. */
    NOT_SUSTAINED("not-sustained"),
    /** Became false in a stretch in which it had to be true. */
    NOT_THROUGHOUT("not-throughout"),
    /** The limiting event came first. */
    OUT_OF_ORDER("out-of-order"),
    /** An always rule was false. */
    FALSE_STATE("false-state"),

    /** Met or missed by less than resolution or tolerance. */
    BORDERLINE("borderline"),
    /** Decided by an unknown value. */
    UNKNOWN("unknown"),
    /** Still open when the trace ended. */
    OPEN("open"),
    /** The trigger may have happened, and not all that it may have raised is surely met. */
    UNKNOWN_TRIGGER("unknown-trigger");

    private final String label;

    Kind(String label) {
      this.label = label;
    }

    public String label() {
      return label;
    }

    public boolean breaks() {
      return ordinal() < BORDERLINE.ordinal();
    }
  }
}

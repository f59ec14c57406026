package dev.pawl.report.model;

/**
 * What the nanoseconds of a trace are counted from, and whose clock shows them.
 *
 * @param kind what they are counted from
 * @param zone the time zone whose clock shows dates, by its name; empty for UTC
 */
public record TimeBase(Kind kind, String zone) {

  public static final TimeBase START = new TimeBase(Kind.START, "");
  public static final TimeBase EPOCH = new TimeBase(Kind.EPOCH, "");

  /** What nanoseconds are counted from. */
  public enum Kind {
    /** The start that the trace states for itself. */
    START,
    /** 1970-01-01T00:00:00Z. */
    EPOCH
  }

  /** Dates as a clock in the zone shows them. */
  public static TimeBase in(String zone) {
    return new TimeBase(Kind.EPOCH, zone.equals("UTC") ? "" : zone);
  }
}

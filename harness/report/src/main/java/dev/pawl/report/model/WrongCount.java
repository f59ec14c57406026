package dev.pawl.report.model;

import java.util.OptionalLong;

/**
 * A count of trains that was found wrong, and that a rule rests on.
 *
 * @param zone name of the zone
 * @param time nanoseconds at which it was found
 * @param since nanoseconds from which on it may have been wrong; empty for from the trace's start on
 */
public record WrongCount(String zone, long time, OptionalLong since) {

  /** Whether a finding from one time to another rests on it. */
  public boolean concerns(FindingResult finding) {
    return finding.trigger() <= time && (since.isEmpty() || finding.time() >= since.getAsLong());
  }
}

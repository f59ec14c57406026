package dev.pawl.report.model;

import java.util.OptionalLong;

/**
 * A zone's count that was found wrong, and that a rule rests on.
 *
 * @param zone name of the zone
 * @param times how often it was found wrong, of the findings that are kept
 * @param first nanoseconds at which it was found wrong first
 * @param last nanoseconds at which it was found wrong last
 * @param since nanoseconds from which on it may have been wrong; empty for from the trace's start on
 */
public record WrongCount(String zone, long times, long first, long last, OptionalLong since) {

  /**
   * Whether a finding of the rule rests on it.
   *
   * @param memory for how long the rule minds the count, nanoseconds
   */
  public boolean concerns(FindingResult finding, long memory) {
    return finding.trigger() - last <= memory && (since.isEmpty() || finding.time() >= since.getAsLong());
  }
}

package dev.pawl.report.model;

import dev.pawl.engine.TrackingFinding;
import java.util.List;
import java.util.Optional;
import java.util.OptionalLong;

/**
 * What one trace says about one zone.
 *
 * @param name the zone's name
 * @param holds greatest number of trains it may hold
 * @param entered trains counted in
 * @param left trains counted out
 * @param least fewest trains that can be in it at the end
 * @param most most trains that can be in it at the end
 * @param start what rules state for the start, if they do
 * @param findingCount how many tracking findings there were
 * @param findings the first of them
 */
public record ZoneResult(String name, int holds, long entered, long left, int least, int most, Optional<Start> start,
    long findingCount, List<Tracking> findings) {

  public ZoneResult {
    findings = List.copyOf(findings);
  }

  /**
   * A number of trains stated for the first instant.
   *
   * @param trains how many
   * @param counts whether the count began with them; else nobody knew by then how many there were
   */
  public record Start(int trains, boolean counts) {}

  /**
   * One count that cannot be right.
   *
   * @param kind what was seen
   * @param time nanoseconds
   * @param since nanoseconds from which on the count may have been wrong; empty for from the trace's start on
   * @param evidence the events behind it
   * @param picture the zone's flags around it, where they were recorded
   */
  public record Tracking(TrackingFinding.Kind kind, long time, OptionalLong since, List<EvidenceResult> evidence,
      Optional<Picture> picture) {
    public Tracking {
      evidence = List.copyOf(evidence);
    }
  }
}

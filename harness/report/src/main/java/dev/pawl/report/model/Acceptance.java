package dev.pawl.report.model;

import dev.pawl.grammar.rules.model.Rule;
import java.time.LocalDate;
import java.util.Optional;

/**
 * A person's word that findings of a rule are known and accepted for a time.
 *
 * @param rule the rule's identifier
 * @param trace the trace, by its path or by the name of its file; empty for every trace
 * @param span the times of the findings; empty for any
 * @param reason why they are accepted
 * @param by who accepts them
 * @param until the last day on which they are, in UTC
 * @param file where it is written
 * @param line 1-based line of it
 */
public record Acceptance(String rule, Optional<String> trace, Optional<Span> span, String reason, String by,
    LocalDate until, String file, int line) {

  /**
   * Times from one to another, both included.
   *
   * @param kind what they are counted from
   * @param from nanoseconds
   * @param to nanoseconds
   * @param words as written
   */
  public record Span(TimeBase.Kind kind, long from, long to, String words) {

    boolean holds(TimeBase base, long first, long last) {
      return base.kind() == kind && from <= first && last <= to;
    }
  }

  /** What has become of one in a report. */
  public enum State {
    IN_FORCE,
    /** Its last day has passed. */
    EXPIRED,
    /** There is nothing that it could be about. */
    UNMATCHED
  }

  /** Whether it speaks of a trace. */
  public boolean isOf(TraceResult of) {
    return trace.isEmpty() || trace.get().equals(of.path()) || trace.get().equals(FileName.of(of.path()));
  }

  /** Whether a finding of a rule lies wholly in its times. */
  boolean covers(Rule of, FindingResult finding, TimeBase base) {
    return span.isEmpty() || span.get().holds(base, finding.begin(of), finding.time());
  }

  /** What it is about, such as {@code FL-07 in monday.csv from 61 s to 75 s}. */
  public String subject() {
    return rule + " in " + trace.orElse("every trace") + span.map(times -> " " + times.words()).orElse("");
  }
}

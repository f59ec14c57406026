package dev.pawl.report.model;

import dev.pawl.engine.Finding;
import java.util.List;
import java.util.Optional;
import java.util.OptionalLong;

/**
 * One finding, with all that is needed to show it.
 *
 * @param kind what happened
 * @param trigger nanoseconds, when the obligation arose
 * @param time nanoseconds, when it was broken or became undecidable
 * @param justAfter whether that was just after {@code time} rather than at it
 * @param deadline nanoseconds, where the rule has a deadline
 * @param lateResponse nanoseconds, when the missing response came after all
 * @param evidence the events behind it, those of the trigger first
 * @param picture the signals around it, where they were recorded
 */
public record FindingResult(Finding.Kind kind, long trigger, long time, boolean justAfter, OptionalLong deadline,
    OptionalLong lateResponse, List<EvidenceResult> evidence, Optional<Picture> picture) {

  public FindingResult {
    evidence = List.copyOf(evidence);
  }

  /** The same finding with its picture. */
  public FindingResult withPicture(Picture drawn) {
    return new FindingResult(kind, trigger, time, justAfter, deadline, lateResponse, evidence, Optional.of(drawn));
  }
}

package dev.pawl.report.model;

import dev.pawl.engine.Finding;
import dev.pawl.grammar.rules.model.Rule;
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
 * @param supposing what had to be otherwise than recorded for it, such as {@code gate had been false from 3 s on};
 *     empty for what was recorded
 * @param drawings what wrote the outputs behind it, where logic under test was drawn
 */
public record FindingResult(Finding.Kind kind, long trigger, long time, boolean justAfter, OptionalLong deadline,
    OptionalLong lateResponse, List<EvidenceResult> evidence, Optional<Picture> picture, String supposing,
    List<Drawing> drawings) {

  /** One of what was recorded. */
  public FindingResult(Finding.Kind kind, long trigger, long time, boolean justAfter, OptionalLong deadline,
      OptionalLong lateResponse, List<EvidenceResult> evidence, Optional<Picture> picture) {
    this(kind, trigger, time, justAfter, deadline, lateResponse, evidence, picture, "", List.of());
  }

  public FindingResult {
    evidence = List.copyOf(evidence);
    drawings = List.copyOf(drawings);
  }

  /** When it began: with its trigger, where the rule has one. */
  public long begin(Rule rule) {
    return rule.duty() instanceof Rule.When ? trigger : time;
  }

  /** The same finding with its picture. */
  public FindingResult withPicture(Picture drawn) {
    return new FindingResult(kind, trigger, time, justAfter, deadline, lateResponse, evidence, Optional.of(drawn),
        supposing, drawings);
  }

  /** The same finding as words only. */
  public FindingResult withoutPicture() {
    return picture.isEmpty() && drawings.isEmpty() ? this : new FindingResult(kind, trigger, time, justAfter, deadline,
        lateResponse, evidence, Optional.empty(), supposing, List.of());
  }

  /** The same finding with what wrote the outputs behind it. */
  public FindingResult withDrawings(List<Drawing> drawn) {
    return new FindingResult(kind, trigger, time, justAfter, deadline, lateResponse, evidence, picture, supposing,
        drawn);
  }

  /** The same finding of a run in which something was otherwise than recorded. */
  public FindingResult supposing(String otherwise) {
    return new FindingResult(kind, trigger, time, justAfter, deadline, lateResponse, evidence, picture, otherwise,
        drawings);
  }
}

package dev.pawl.engine.reference;

import dev.pawl.engine.Finding;
import dev.pawl.engine.Margin;
import dev.pawl.engine.Obligations;
import dev.pawl.engine.Sight;
import dev.pawl.engine.TrackingFinding;
import dev.pawl.engine.Tried;
import dev.pawl.engine.ZoneOutcome;
import java.util.List;
import java.util.OptionalLong;
import java.util.Set;

/**
 * What an evaluator says about one trace, in a form in which two evaluators can be compared: findings in order of rule,
 * trigger and time.
 */
public record Judgement(List<OfRule> rules, List<OfZone> zones, List<Sight> signals) {

  /**
   * What it says about a rule.
   *
   * @param margins the smallest margin, once for each obligation that has it at the same time; an evaluator may know
   *     only one of them
   * @param tried what became of each trial that it states
   * @param unconfirmed how many of the met a later passage may still take back
   * @param watched nanoseconds in which an {@code always} applied
   * @param late responses that came after they had been found missing
   */
  public record OfRule(Obligations obligations, Set<Margin> margins, List<Tried> tried, long unconfirmed, long watched,
      List<Found> findings, List<Late> late) {}

  /** A response that came too late, in nanoseconds. */
  public record Late(long trigger, long deadline, long time) {}

  public record OfZone(ZoneOutcome outcome, List<Tracked> findings) {}

  /** A finding without its evidence. */
  public record Found(Finding.Kind kind, long trigger, long time, boolean justAfter, long deadline) {}

  /** A tracking finding without its evidence. */
  public record Tracked(TrackingFinding.Kind kind, long time, OptionalLong since) {}
}

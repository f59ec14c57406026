package dev.pawl.engine.reference;

import dev.pawl.engine.Finding;
import dev.pawl.engine.Margin;
import dev.pawl.engine.Obligations;
import dev.pawl.engine.TrackingFinding;
import dev.pawl.engine.ZoneOutcome;
import java.util.List;
import java.util.Optional;

/** What an evaluator says about one trace, in a form in which two evaluators can be compared: findings in order of rule, trigger and time. */
public record Judgement(List<OfRule> rules, List<OfZone> zones) {

  public record OfRule(Obligations obligations, Optional<Margin> margin, List<Found> findings) {}

  public record OfZone(ZoneOutcome outcome, List<Tracked> findings) {}

  /** A finding without its evidence. */
  public record Found(Finding.Kind kind, long trigger, long time, boolean justAfter, long deadline) {}

  /** A tracking finding without its evidence. */
  public record Tracked(TrackingFinding.Kind kind, long time) {}
}

package dev.pawl.engine.plan;

import dev.pawl.engine.graph.SignalState;
import dev.pawl.grammar.rules.model.BoolExpr;
import dev.pawl.grammar.rules.model.RuleBook;
import dev.pawl.grammar.rules.model.Zone;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.TreeSet;

/** The signals and zones that some expressions rest on. */
public final class Dependencies {

  private final Set<Integer> signals = new TreeSet<>();
  private final Set<Integer> zones = new TreeSet<>();

  public Dependencies of(BoolExpr expression) {
    signals.addAll(expression.signals());
    zones.addAll(expression.zones());
    return this;
  }

  Dependencies of(Optional<BoolExpr> expression) {
    expression.ifPresent(this::of);
    return this;
  }

  Dependencies of(List<BoolExpr> expressions) {
    expressions.forEach(this::of);
    return this;
  }

  /** Adds a zone. */
  public Dependencies of(Zone zone) {
    zones.add(zone.index());
    return this;
  }

  /** Adds the flags of the zones found so far, and of the zones that those rest on. */
  public Dependencies throughZones(RuleBook book) {
    Set<Integer> done = new TreeSet<>();
    while (!done.containsAll(zones)) {
      for (int zone : Set.copyOf(zones)) {
        if (done.add(zone)) {
          of(book.zones().get(zone).conditions());
        }
      }
    }
    return this;
  }

  /** Indices of the signals. */
  public Set<Integer> signals() {
    return signals;
  }

  /** Indices of the zones. */
  public Set<Integer> zones() {
    return zones;
  }

  /** Those of all signals that were found. */
  SignalState[] among(SignalState[] all) {
    return signals.stream().map(signal -> all[signal]).toArray(SignalState[]::new);
  }
}

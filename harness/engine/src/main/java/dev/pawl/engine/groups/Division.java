package dev.pawl.engine.groups;

import dev.pawl.engine.plan.Dependencies;
import dev.pawl.engine.plan.Selection;
import dev.pawl.grammar.rules.model.Rule;
import dev.pawl.grammar.rules.model.RuleBook;
import dev.pawl.grammar.rules.model.RuleParts;
import dev.pawl.grammar.rules.model.Zone;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashSet;
import java.util.List;
import java.util.Set;

/**
 * Which rules of a book are evaluated together. Those that rest on a common zone are, so that no zone is counted twice;
 * and those whose signals are mostly the same, since an event is then brought to one group instead of two. What is left
 * apart is so because a processor that does one thing many times over does it faster than many things in turn.
 */
final class Division {

  /** Every block has a batch for each group. */
  private static final int GROUPS = 32;

  /**
   * To how many groups an event goes at most: otherwise rules that share one signal and little else would each look at
   * all of its events.
   */
  private static final int AUDIENCE = 4;

  private final List<Cluster> clusters = new ArrayList<>();

  private Division() {}

  /** Rules and zones that belong together, and the indices of what they rest on. */
  private static final class Cluster {
    final List<Rule> rules = new ArrayList<>();
    final List<Zone> zones = new ArrayList<>();
    final Set<Integer> signals = new HashSet<>();
    final Set<Integer> counted = new HashSet<>();

    void take(Cluster other) {
      rules.addAll(other.rules);
      zones.addAll(other.zones);
      signals.addAll(other.signals);
      counted.addAll(other.counted);
    }

    boolean sharesZone(Cluster other) {
      return counted.stream().anyMatch(other.counted::contains);
    }

    int shared(Cluster other) {
      return (int) signals.stream().filter(other.signals::contains).count();
    }

    /** Whether more than half of the signals of the smaller are also the other's. */
    boolean isAkin(Cluster other) {
      return 2 * shared(other) > Math.min(signals.size(), other.signals.size());
    }

    Selection selection() {
      rules.sort(Comparator.comparingInt(Rule::index));
      zones.sort(Comparator.comparingInt(Zone::index));
      return new Selection(rules, zones);
    }
  }

  /** The groups, at least one; each rule and each zone is in exactly one. */
  static List<Selection> of(RuleBook book) {
    Division division = new Division();
    for (Cluster one : byZone(book)) {
      division.place(one);
    }
    if (division.clusters.isEmpty()) {
      division.clusters.add(new Cluster());
    }
    return division.clusters.stream().map(Cluster::selection).toList();
  }

  /** Each zone and each rule, together with what it shares a zone with. */
  private static List<Cluster> byZone(RuleBook book) {
    List<Cluster> separate = new ArrayList<>();
    for (Zone zone : book.zones()) {
      Cluster one = resting(book, new Dependencies().of(zone));
      one.zones.add(zone);
      join(separate, one);
    }
    for (Rule rule : book.rules()) {
      Dependencies dependencies = new Dependencies();
      RuleParts.conditions(rule).forEach(dependencies::of);
      Cluster one = resting(book, dependencies);
      one.rules.add(rule);
      join(separate, one);
    }
    return separate;
  }

  private static Cluster resting(RuleBook book, Dependencies dependencies) {
    Cluster one = new Cluster();
    dependencies.throughZones(book);
    one.signals.addAll(dependencies.signals());
    one.counted.addAll(dependencies.zones());
    return one;
  }

  private static void join(List<Cluster> separate, Cluster one) {
    List<Cluster> related = one.counted.isEmpty() ? List.of() : separate.stream().filter(one::sharesZone).toList();
    if (related.isEmpty()) {
      separate.add(one);
      return;
    }
    Cluster first = related.get(0);
    first.take(one);
    related.subList(1, related.size()).forEach(first::take);
    separate.removeAll(related.subList(1, related.size()));
  }

  private void place(Cluster one) {
    boolean mayStandAlone = clusters.size() < GROUPS && one.signals.stream().allMatch(this::hasRoom);
    clusters.stream().filter(other -> !mayStandAlone || other.isAkin(one)).max(Comparator.comparingInt(one::shared))
        .ifPresentOrElse(nearest -> nearest.take(one), () -> clusters.add(one));
  }

  private boolean hasRoom(int signal) {
    return clusters.stream().filter(other -> other.signals.contains(signal)).count() < AUDIENCE;
  }
}

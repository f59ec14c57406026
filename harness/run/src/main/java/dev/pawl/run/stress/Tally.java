package dev.pawl.run.stress;

import dev.pawl.plant.loop.Truth;
import java.util.ArrayList;
import java.util.EnumMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;

/** What the runs of a campaign came to, counted. It does not grow with the number of runs. */
public final class Tally {

  private final int rules;
  private final Map<String, OfKind> kinds = new LinkedHashMap<>();
  private final OfKind all;
  private final Map<Sort, Example> examples = new LinkedHashMap<>();
  /** By rule: the plainest run that broke it. */
  private final Break[] breaks;
  private long runs;
  private long scans;
  private long quiet;
  private long brokenOnly;
  private long ended;
  private Optional<String> firstEnd = Optional.empty();

  /** What some runs came to. */
  public static final class OfKind {
    private long runs;
    private final long[] broken;
    private final Map<Truth.Kind, long[]> hazards = new EnumMap<>(Truth.Kind.class);

    OfKind(int rules) {
      broken = new long[rules];
    }

    private void add(RunResult result) {
      runs++;
      for (int rule = 0; rule < broken.length; rule++) {
        broken[rule] += result.isBroken(rule) ? 1 : 0;
      }
      for (Truth.Kind kind : Truth.Kind.values()) {
        for (boolean noticed : new boolean[] {true, false}) {
          if (result.first(kind, noticed).isPresent()) {
            hazards.computeIfAbsent(kind, unused -> new long[2])[noticed ? 0 : 1]++;
          }
        }
      }
    }

    /** How many runs. */
    public long runs() {
      return runs;
    }

    /** In how many of them a rule was broken. */
    public long broken(int rule) {
      return broken[rule];
    }

    /** In how many of them a kind of hazard was there, noticed or not. */
    public long hazards(Truth.Kind kind, boolean noticed) {
      return hazards.getOrDefault(kind, new long[2])[noticed ? 0 : 1];
    }

    /** Hazards of all kinds, each counted once in a run. */
    public long hazards() {
      return hazards.values().stream().mapToLong(it -> it[0] + it[1]).sum();
    }

    /** Those of them that no rule noticed. */
    public long unnoticed() {
      return hazards.values().stream().mapToLong(it -> it[1]).sum();
    }
  }

  /**
   * A sort of hazard, of which one run is kept.
   *
   * @param kinds of the faults in that run
   */
  record Sort(Truth.Kind kind, boolean noticed, List<String> kinds) {}

  /** The first run that showed a sort of hazard, and how many did. */
  static final class Example {
    final Trial trial;
    long count;

    Example(Trial trial) {
      this.trial = trial;
    }
  }

  /**
   * A run that broke a rule.
   *
   * @param at nanoseconds after the start
   */
  record Break(Trial trial, long at) {

    /** Whether fewer things fail in it than in another, or as many and fewer people err, or it is sooner. */
    boolean isPlainerThan(Break other) {
      int byFailures = Long.compare(trial.failures(), other.trial.failures());
      int byFaults = Integer.compare(trial.faults().size(), other.trial.faults().size());
      return byFailures != 0 ? byFailures < 0 : byFaults != 0 ? byFaults < 0 : at < other.at;
    }
  }

  Tally(int rules, List<Candidate> candidates) {
    this.rules = rules;
    breaks = new Break[rules];
    this.all = new OfKind(rules);
    candidates.forEach(it -> kinds.computeIfAbsent(it.kind(), unused -> new OfKind(rules)));
  }

  /** Takes what a run came to; runs come in the order of their numbers. */
  void add(Trial trial, RunResult result) {
    runs++;
    scans += result.scans();
    all.add(result);
    boolean anyBroken = false;
    for (int rule = 0; rule < rules; rule++) {
      anyBroken |= result.isBroken(rule);
      Break one = new Break(trial, result.broken()[rule]);
      if (result.isBroken(rule) && (breaks[rule] == null || one.isPlainerThan(breaks[rule]))) {
        breaks[rule] = one;
      }
    }
    brokenOnly += anyBroken && result.hazards().isEmpty() ? 1 : 0;
    quiet += !anyBroken && result.hazards().isEmpty() ? 1 : 0;
    if (result.end().isPresent()) {
      ended++;
      firstEnd = firstEnd.isPresent() ? firstEnd : result.end();
    }
    if (trial.faults().size() == 1) {
      kinds.get(trial.faults().get(0).candidate().kind()).add(result);
    }
    for (Truth.Kind kind : Truth.Kind.values()) {
      for (boolean noticed : new boolean[] {false, true}) {
        if (result.first(kind, noticed).isPresent()) {
          List<String> faults = trial.kinds().size() > 2 ? List.of("several") : trial.kinds();
          examples.computeIfAbsent(new Sort(kind, noticed, faults), unused -> new Example(trial)).count++;
        }
      }
    }
  }

  /** The sorts of hazards that were seen: those that no rule noticed first, then by kind, those of one fault first. */
  List<Map.Entry<Sort, Example>> sorts() {
    List<Map.Entry<Sort, Example>> sorts = new ArrayList<>(examples.entrySet());
    sorts.sort((one, other) -> {
      int byNotice = Boolean.compare(one.getKey().noticed(), other.getKey().noticed());
      int byKind = one.getKey().kind().compareTo(other.getKey().kind());
      int byFaults = Integer.compare(one.getValue().trial.faults().size(), other.getValue().trial.faults().size());
      return byNotice != 0 ? byNotice : byKind != 0 ? byKind : byFaults;
    });
    return sorts;
  }

  /** The plainest run that broke a rule; empty where none did. */
  Optional<Break> plainest(int rule) {
    return Optional.ofNullable(breaks[rule]);
  }

  /** By kind of fault: the runs in which it was the only fault. */
  public Map<String, OfKind> kinds() {
    return kinds;
  }

  /** All runs. */
  public OfKind all() {
    return all;
  }

  /** How many scans all runs had together. */
  public long scans() {
    return scans;
  }

  /** Runs in which no rule was broken and no hazard was there. */
  public long quiet() {
    return quiet;
  }

  /** Runs in which a rule was broken and no hazard was there. */
  public long brokenOnly() {
    return brokenOnly;
  }

  /** Runs that ended early. */
  public long ended() {
    return ended;
  }

  /** Why the first of them did. */
  public Optional<String> firstEnd() {
    return firstEnd;
  }
}

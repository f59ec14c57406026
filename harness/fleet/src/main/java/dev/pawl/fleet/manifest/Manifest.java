package dev.pawl.fleet.manifest;

import java.util.List;
import java.util.Optional;

/**
 * An archive of sessions.
 *
 * @param sets in the order in which they first occur
 */
public record Manifest(List<RuleSet> sets) {

  public Manifest {
    sets = List.copyOf(sets);
  }

  /** How many sessions it has. */
  public int size() {
    return sets.stream().mapToInt(set -> set.sessions().size()).sum();
  }

  /**
   * The sessions of one ride that are judged by the same rules, and so have one report.
   *
   * @param name of the ride, with a dot and a number behind it from the second set of rules on; a file name
   * @param ride name of the ride
   * @param rules paths of rule files, and folders of them
   * @param bindings path of the bindings
   * @param sessions in the order of the manifest
   */
  public record RuleSet(String name, String ride, List<String> rules, Optional<String> bindings,
      List<Recorded> sessions) {

    public RuleSet {
      rules = List.copyOf(rules);
      sessions = List.copyOf(sessions);
    }
  }

  /**
   * A session.
   *
   * @param name what tables call it
   * @param day when it was, as {@code YYYY-MM-DD} or {@code YYYY-MM}; empty where its trace says so, or nothing does
   * @param files its traces, by their paths or addresses
   */
  public record Recorded(String name, Optional<String> day, List<String> files) {

    public Recorded {
      files = List.copyOf(files);
    }
  }
}

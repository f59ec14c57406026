package dev.pawl.report.model;

import java.util.List;
import java.util.Set;
import java.util.stream.IntStream;

/**
 * Which rules noticed which mistakes in logic.
 *
 * @param possible how many mistakes can be planted in it
 * @param planned how many were to be planted, those that are no program among them
 * @param runs how many runs were made with each
 * @param rideTime seconds of the ride's time in those
 * @param rules the rules, by index
 */
public record StrengthReport(String version, String ride, long seed, int possible, int planned, int runs,
    double rideTime, List<String> rules, List<Mistake> mistakes) {

  public StrengthReport {
    rules = List.copyOf(rules);
    mistakes = List.copyOf(mistakes);
  }

  /** What became of a mistake, the worst first. */
  public enum Fate {
    DANGEROUS("a hazard, and no rule noticed"),
    DIFFERED("outputs differed, and no rule noticed"),
    LOST("no rule noticed, but some were no longer put to the test"),
    ALIKE("its line ran, and no output ever differed"),
    NEVER_RAN("its line never ran"),
    NOTICED("noticed by a rule");

    private final String words;

    Fate(String words) {
      this.words = words;
    }

    /** As reports say it. */
    public String words() {
      return words;
    }
  }

  /** What is otherwise than in the unchanged logic, and where. */
  public record Change(String kind, String file, int line, String before, String after) {}

  /**
   * A mistake.
   *
   * @param ran whether the line it is in ran in the unchanged logic
   * @param differed in how many runs an output differed
   * @param noticedBy by rule: in how many runs it was broken where the unchanged logic did not break it
   * @param lost rules that the unchanged logic puts to the test in some run, and this in none
   * @param hazards kinds of hazards that the unchanged logic did not show in the same run
   * @param untold those of them that, in some such run, no rule noticed
   * @param where a run in which it showed
   */
  public record Mistake(Change change, boolean ran, int differed, List<Integer> noticedBy, List<String> lost,
      Set<Truth.Kind> hazards, Set<Truth.Kind> untold, String where) {

    public Mistake {
      noticedBy = List.copyOf(noticedBy);
      lost = List.copyOf(lost);
    }

    public Fate fate() {
      if (noticedBy.stream().anyMatch(it -> it > 0)) {
        return Fate.NOTICED;
      }
      return !hazards.isEmpty() ? Fate.DANGEROUS : !lost.isEmpty() ? Fate.LOST : differed > 0 ? Fate.DIFFERED : ran
          ? Fate.ALIKE : Fate.NEVER_RAN;
    }
  }

  /** The mistakes of one fate. */
  public List<Mistake> of(Fate fate) {
    return mistakes.stream().filter(it -> it.fate() == fate).toList();
  }

  /** How many mistakes led to a hazard that the unchanged logic did not show. */
  public long dangerous() {
    return mistakes.stream().filter(it -> !it.hazards().isEmpty()).count();
  }

  /** Mistakes that a rule noticed, but led in some other run to a hazard that none did. */
  public List<Mistake> untold() {
    return of(Fate.NOTICED).stream().filter(it -> !it.untold().isEmpty()).toList();
  }

  /** How many mistakes a rule noticed. */
  public long noticed(int rule) {
    return mistakes.stream().filter(it -> it.noticedBy().get(rule) > 0).count();
  }

  /** The rules that noticed none. */
  public List<String> noticedNothing() {
    return IntStream.range(0, rules.size()).filter(rule -> noticed(rule) == 0).mapToObj(rules::get).toList();
  }
}

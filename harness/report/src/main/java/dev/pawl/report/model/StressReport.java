package dev.pawl.report.model;

import java.util.List;
import java.util.Optional;
import java.util.stream.IntStream;

/**
 * What a campaign of faults showed of a ride's logic and rules.
 *
 * @param rules the rules, by index
 * @param brokenAnyway rules that are broken without a fault, and so notice nothing
 * @param kinds the runs with a single fault, by its kind
 */
public record StressReport(String version, String ride, Campaign campaign, List<String> rules,
    List<String> brokenAnyway, Counts counts, List<Kind> kinds, Smallest smallest) {

  public StressReport {
    rules = List.copyOf(rules);
    brokenAnyway = List.copyOf(brokenAnyway);
    kinds = List.copyOf(kinds);
  }

  /**
   * What was to be run.
   *
   * @param scenario what happens without a fault
   * @param seed what faults were drawn from
   * @param runs how many it has
   */
  public record Campaign(String scenario, long seed, long runs) {}

  /**
   * What all runs came to.
   *
   * @param runs how many were made
   * @param rideTime seconds of the ride's time in all runs together
   * @param hazards how many runs showed each kind of hazard
   * @param brokenOnly runs in which a rule was broken and no hazard was there
   * @param quiet runs in which neither was there
   * @param ended runs that ended early, and why the first of them did
   * @param broken in how many each rule was broken, by index
   */
  public record Counts(long runs, double rideTime, List<Hazards> hazards, long brokenOnly, long quiet, Ended ended,
      List<Long> broken) {

    public Counts {
      hazards = List.copyOf(hazards);
      broken = List.copyOf(broken);
    }
  }

  /**
   * The smallest runs that show something.
   *
   * @param found hazards with the smallest runs that show them, those that no rule noticed first
   * @param sorts how many sorts of hazards there were
   * @param broken rules that were broken, each with the smallest run that breaks it, those first that people broke
   */
  public record Smallest(List<Found> found, int sorts, List<Broken> broken) {

    public Smallest {
      found = List.copyOf(found);
      broken = List.copyOf(broken);
    }
  }

  /** In how many runs a kind of hazard was there that rules noticed, and in how many one that none did. */
  public record Hazards(Truth.Kind kind, long noticed, long unnoticed) {}

  /** Runs that ended early. */
  public record Ended(long runs, Optional<String> why) {}

  /**
   * The runs in which a fault of one kind was the only one.
   *
   * @param hazards in how many of them there was a hazard of a kind, noticed or not
   * @param unnoticed in how many a hazard of a kind was not noticed
   * @param broken in how many each rule was broken, by index
   */
  public record Kind(String name, long runs, long hazards, long unnoticed, List<Long> broken) {

    public Kind {
      broken = List.copyOf(broken);
    }
  }

  /**
   * A hazard with the smallest run that shows it.
   *
   * @param words what happened
   * @param steps what fails in that run, as its scenario says it
   * @param lasts seconds for which it lasts
   * @param count how many runs of the campaign showed the like
   * @param brokenBy rules that are broken in it
   * @param file its scenario, without ending, where it is kept
   */
  public record Found(Truth.Kind kind, boolean noticed, String words, List<String> steps, double lasts, long count,
      List<String> brokenBy, String file) {

    public Found {
      steps = List.copyOf(steps);
      brokenBy = List.copyOf(brokenBy);
    }
  }

  /**
   * A rule with the smallest run that breaks it.
   *
   * @param byPeople whether nothing fails in that run but what people do
   * @param steps what fails or is done in it, as its scenario says it
   * @param lasts seconds for which it lasts
   * @param count how many runs of the campaign broke the rule
   * @param file its scenario, without ending, where it is kept
   */
  public record Broken(String rule, boolean byPeople, List<String> steps, double lasts, long count, String file) {

    public Broken {
      steps = List.copyOf(steps);
    }
  }

  /** Whether a run showed a hazard that no rule noticed. */
  public boolean hasUnnoticed() {
    return counts.hazards().stream().anyMatch(it -> it.unnoticed() > 0);
  }

  /** Whether it came to its end. */
  public boolean isWhole() {
    return counts.runs() == campaign.runs();
  }

  /** The rules that no run broke. */
  public List<String> neverBroken() {
    return IntStream.range(0, rules.size()).filter(rule -> counts.broken().get(rule) == 0).mapToObj(rules::get)
        .toList();
  }
}

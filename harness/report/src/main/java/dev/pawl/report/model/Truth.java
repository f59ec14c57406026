package dev.pawl.report.model;

import java.util.List;
import java.util.Locale;
import java.util.Optional;

/**
 * What truly happened in a run whose ride is a model, as no sensor can tell it.
 *
 * @param happenings the first of them, in order of time
 * @param count how many there were
 * @param paths where the trains were, for a picture
 */
public record Truth(List<Happening> happenings, long count, Optional<TrainPaths> paths) {

  public Truth {
    happenings = List.copyOf(happenings);
  }

  /** What kind of thing happened. */
  public enum Kind {
    CONTACT("trains touched"),
    ROLL_BACK("a train rolled back"),
    STRAYED("a train left its way"),
    UNDER_STOP("a train moved under a stop"),
    BOARDING("a train moved where people were getting on"),
    FOOLED("tracking was fooled");

    private final String words;

    Kind(String words) {
      this.words = words;
    }

    /** As reports say it. */
    public String words() {
      return words;
    }

    /** As report.json has it. */
    public String label() {
      return name().toLowerCase(Locale.ROOT).replace('_', '-');
    }
  }

  /**
   * One thing that happened.
   *
   * @param time nanoseconds
   * @param words what, as a sentence without its point
   * @param hazard whether somebody could have come to harm, else it erred to the safe side
   * @param noticed whether a rule was broken before it, or soon after
   */
  public record Happening(Kind kind, long time, String words, boolean hazard, boolean noticed) {

    public boolean isUnnoticedHazard() {
      return hazard && !noticed;
    }
  }

  /** Those of a kind. */
  public List<Happening> of(Kind kind) {
    return happenings.stream().filter(it -> it.kind() == kind).toList();
  }

  /** Hazards that no rule noticed. */
  public List<Happening> unnoticed() {
    return happenings.stream().filter(Happening::isUnnoticedHazard).toList();
  }
}

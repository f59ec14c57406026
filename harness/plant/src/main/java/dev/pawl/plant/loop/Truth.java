package dev.pawl.plant.loop;

import java.util.ArrayList;
import java.util.List;

/** What truly happened on a ride, as only its model can know it. */
public final class Truth {

  /** More of them are counted, not listed. */
  private static final int MOST = 100;
  /** A rule that is broken so many seconds after a hazard still noticed it. */
  private static final double SOON = 10;

  private final List<Happening> happenings = new ArrayList<>();
  private long count;

  /** What kind of thing. */
  public enum Kind {
    /** One train ran into another. */
    CONTACT,
    /** A train rolled back further than it may. */
    ROLL_BACK,
    /** A train was where its track did not lead. */
    STRAYED,
    /** A train was driven, or not held by an open brake, while a stop stood. */
    UNDER_STOP,
    /** A train moved where people get on and off, while that was not shut. */
    BOARDING,
    /** What flags told of the trains in a zone was not so. */
    FOOLED
  }

  /**
   * One thing that happened.
   *
   * @param seconds since the start
   * @param words what, as a sentence without its point
   * @param hazard whether somebody could have come to harm, else it errs to the safe side
   */
  public record Happening(Kind kind, double seconds, String words, boolean hazard) {

    /** Whether a rule noticed it that was first broken so many seconds after the start. */
    public boolean isNoticedBy(double broken) {
      return broken <= seconds + SOON;
    }
  }

  void add(Kind kind, double seconds, String words, boolean hazard) {
    count++;
    if (happenings.size() < MOST) {
      happenings.add(new Happening(kind, seconds, words, hazard));
    }
  }

  /** Whether there is a hazard that a rule can still notice. */
  public boolean isOpen(double now) {
    return happenings.stream().anyMatch(it -> it.hazard() && it.seconds() + SOON >= now);
  }

  /** All, in the order in which they happened. */
  public List<Happening> happenings() {
    return List.copyOf(happenings);
  }

  /** How many there were, also of those that are not listed. */
  public long count() {
    return count;
  }
}

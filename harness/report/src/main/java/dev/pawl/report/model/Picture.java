package dev.pawl.report.model;

import java.util.List;
import java.util.Optional;

/**
 * The course of the signals behind a finding, from some time before its trigger to some time after its break.
 *
 * @param from nanoseconds, left edge
 * @param to nanoseconds, right edge
 * @param tracks one per signal, those with evidence first, then one per zone for its occupancy
 * @param wide the same signals over a longer stretch around it, where that was recorded
 */
public record Picture(long from, long to, List<Track> tracks, Optional<Picture> wide) {

  /** One without more around it. */
  public Picture(long from, long to, List<Track> tracks) {
    this(from, to, tracks, Optional.empty());
  }

  public Picture {
    tracks = List.copyOf(tracks);
  }

  /** What a track is drawn as. */
  public enum Shape {
    SWITCH,
    NAMES,
    NUMBER
  }

  /**
   * One signal, or whether a zone is occupied. Times ascend; each value holds until the next time; {@code NaN} is
   * unknown.
   *
   * @param signal its name, or {@code occupied(zone)}
   * @param shape what it is drawn as
   * @param unit the written unit of a number
   * @param names the members of an enumeration, by index
   * @param times nanoseconds; the first is at or before {@code from} where the signal was known by then
   * @param values 0 or 1, an enumeration index, or a number in {@code unit}
   * @param bounds numbers in {@code unit} that the rule compares this signal with
   * @param cut whether changes were left out because there were too many to draw
   */
  public record Track(String signal, Shape shape, String unit, List<String> names, long[] times, double[] values,
      double[] bounds,
      boolean cut) {
    public Track {
      names = List.copyOf(names);
    }
  }
}

package dev.pawl.trace.time;

import java.util.ArrayList;
import java.util.EnumSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;

/**
 * How dates and times are written, as a pattern of words for their parts, such as {@code day.month.year
 * hour:minute:second}; whatever is no such word stands for itself.
 *
 * @param pattern the pattern as it was stated
 * @param steps its parts in order
 */
public record WrittenTime(String pattern, List<Step> steps) {

  /** The words of a pattern. Of two that start alike the longer comes first. */
  public enum Part {
    /** Two digits, of this century. */
    YEAR2("year2", 2),
    /** Four digits. */
    YEAR("year", 4),
    /** One or two digits, or the English name, of which three letters are enough. */
    MONTH("month", 2),
    DAY("day", 2),
    HOUR("hour", 2),
    MINUTE("minute", 2),
    /** One or two digits; decimals may follow a point or a comma. */
    SECOND("second", 2),
    /** Decimals of the second that stand on their own. */
    FRACTION("fraction", 9),
    /** {@code AM} or {@code PM}. */
    HALF("ampm", 2),
    /** {@code Z} or one such as {@code +02:00}. */
    OFFSET("offset", 6),
    /** The name of a day of the week, which says nothing. */
    WEEKDAY("weekday", 9);

    private final String word;
    private final int digits;

    Part(String word, int digits) {
      this.word = word;
      this.digits = digits;
    }

    int digits() {
      return digits;
    }
  }

  /** All words, for messages. */
  public static final String WORDS =
      "year, month, day, hour, minute, second, fraction, ampm, offset, weekday and year2";

  /**
   * One step along a text.
   *
   * @param part what is read; empty for bytes that stand for themselves
   * @param literal these bytes
   * @param fixed whether digits follow each other so closely that each part has all of its own
   */
  public record Step(Optional<Part> part, String literal, boolean fixed) {}

  /** A pattern, or why it is none. */
  public record Read(Optional<WrittenTime> time, String problem) {}

  public WrittenTime {
    steps = List.copyOf(steps);
  }

  /** Reads a pattern. */
  public static Read of(String pattern) {
    List<Step> steps = new ArrayList<>();
    Set<Part> seen = EnumSet.noneOf(Part.class);
    StringBuilder literal = new StringBuilder();
    int at = 0;
    while (at < pattern.length()) {
      Optional<Part> part = partAt(pattern, at);
      if (part.isEmpty()) {
        literal.append(pattern.charAt(at++));
        continue;
      }
      if (!seen.add(part.get())) {
        return new Read(Optional.empty(), "it has '" + part.get().word + "' twice");
      }
      if (!literal.isEmpty()) {
        steps.add(new Step(Optional.empty(), literal.toString(), false));
        literal.setLength(0);
      }
      at += part.get().word.length();
      steps.add(new Step(part, "", partAt(pattern, at).isPresent() || !steps.isEmpty()
          && isNumber(steps.get(steps.size() - 1))));
    }
    if (!literal.isEmpty()) {
      steps.add(new Step(Optional.empty(), literal.toString(), false));
    }
    return problem(seen).map(problem -> new Read(Optional.empty(), problem))
        .orElseGet(() -> new Read(Optional.of(new WrittenTime(pattern, steps)), ""));
  }

  private static boolean isNumber(Step step) {
    return step.part().isPresent();
  }

  private static Optional<Part> partAt(String pattern, int at) {
    for (Part part : Part.values()) {
      if (pattern.startsWith(part.word, at)) {
        return Optional.of(part);
      }
    }
    return Optional.empty();
  }

  private static Optional<String> problem(Set<Part> seen) {
    boolean year = seen.contains(Part.YEAR) || seen.contains(Part.YEAR2);
    boolean month = seen.contains(Part.MONTH);
    boolean day = seen.contains(Part.DAY);
    if (seen.isEmpty()) {
      return Optional.of("it has none of the words");
    }
    if (seen.contains(Part.YEAR) && seen.contains(Part.YEAR2)) {
      return Optional.of("it has the year twice");
    }
    if ((year || month || day) && !(year && month && day)) {
      return Optional.of("a date needs year, month and day");
    }
    if (!seen.contains(Part.HOUR) && !seen.contains(Part.MINUTE)) {
      return Optional.of("it has neither hour nor minute");
    }
    if (!seen.contains(Part.HOUR) && year) {
      return Optional.of("it has no hour");
    }
    if (seen.contains(Part.SECOND) && !seen.contains(Part.MINUTE) || seen.contains(Part.FRACTION)
        && !seen.contains(Part.SECOND)) {
      return Optional.of("a part is left out between two that are stated");
    }
    return !year && (seen.contains(Part.OFFSET) || seen.contains(Part.HALF))
        ? Optional.of("'offset' and 'ampm' need a date")
        : Optional.empty();
  }

  /** Whether the pattern has a date; else times count from a start of the trace's own. */
  public boolean dated() {
    return has(Part.DAY);
  }

  /** Whether each time states its own offset. */
  public boolean offset() {
    return has(Part.OFFSET);
  }

  boolean has(Part part) {
    return steps.stream().anyMatch(step -> step.part().equals(Optional.of(part)));
  }
}

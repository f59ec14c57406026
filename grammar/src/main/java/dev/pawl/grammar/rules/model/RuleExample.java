package dev.pawl.grammar.rules.model;

import dev.pawl.grammar.source.Position;
import java.util.List;
import java.util.Optional;
import java.util.OptionalLong;

/**
 * A tiny trace with the verdict that one rule must give on it.
 *
 * @param title what it shows
 * @param rule index of the rule
 * @param expected the verdict
 * @param margin the margin in SI base units, where one is stated
 * @param events in order of time
 * @param end when the trace ends, in nanoseconds; the last event where absent
 * @param position where it is declared
 */
public record RuleExample(String title, int rule, Expected expected, Optional<Double> margin, List<Event> events,
    OptionalLong end, Position position) {

  public RuleExample {
    events = List.copyOf(events);
  }

  /** What a rule can be expected to give. */
  public enum Expected {
    HELD("held"),
    BROKEN("broken"),
    NOT_EXERCISED("not exercised"),
    UNDECIDED("undecided");

    private final String label;

    Expected(String label) {
      this.label = label;
    }

    public String label() {
      return label;
    }
  }

  /** The value of an event that makes its signal unknown. */
  public static final long UNKNOWN = 0x7ff8_0000_0000_0000L;

  /**
   * One event.
   *
   * @param time nanoseconds
   * @param signal index of the signal
   * @param value 0 or 1; an enumeration index; the raw bits of a number in SI base units; or {@link #UNKNOWN}
   * @param line line of the rule file it stands on
   */
  public record Event(long time, int signal, long value, int line) {}
}

package dev.pawl.trace.intake;

import dev.pawl.trace.bindings.Columns;
import dev.pawl.trace.time.TimeForm;
import dev.pawl.trace.time.TimeReader;
import dev.pawl.trace.time.TimeScale;
import java.util.Optional;

/**
 * What is stated about a trace outside of it.
 *
 * @param columns what columns are called
 * @param time what is stated of its times
 */
public record Settings(Columns columns, TimeForm time) {

  /** What to do about times of no stated unit. */
  public static final String STATE_UNIT =
      "call the column time_s, time_ms, time_us or time_ns, or state the unit with --time-unit or in a bindings file";

  /** Whether a column or key of this name holds the times. */
  public boolean isTime(String name) {
    return columns.time().map(name::equals).orElseGet(() -> name.equals("time")
        || TimeScale.ofColumn(name).isPresent());
  }

  public boolean isSignal(String name) {
    return name.equals(columns.signal().orElse("signal"));
  }

  public boolean isValue(String name) {
    return name.equals(columns.value().orElse("value"));
  }

  public boolean isQuality(String name) {
    return name.equals(columns.quality().orElse("quality"));
  }

  /** Whether a column or key of this name holds the time, the signal, its value or its quality. */
  public boolean isNamed(String name) {
    return isTime(name) || isSignal(name) || isValue(name) || isQuality(name) || columns.timeOfDay()
        .equals(Optional.of(name));
  }

  /** The scale stated by a column's name or outside the trace; empty means that only RFC 3339 may follow. */
  public Optional<TimeScale> scaleOf(String column) {
    Optional<TimeScale> own = TimeScale.ofColumn(column);
    return own.isPresent() ? own : time.unit();
  }

  /** Whether the column's own name says something else than what is stated outside. */
  public boolean contradicts(String column) {
    Optional<TimeScale> own = TimeScale.ofColumn(column);
    return own.isPresent() && time.unit().isPresent() && !own.equals(time.unit());
  }

  /** A reader of the column's times. */
  public TimeReader reader(String column) {
    Optional<TimeScale> own = TimeScale.ofColumn(column);
    return new TimeReader(time.unit().isPresent() ? time : TimeForm.of(own), columns.point());
  }
}

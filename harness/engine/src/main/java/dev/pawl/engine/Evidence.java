package dev.pawl.engine;

/**
 * One event behind a finding.
 *
 * @param moment whether it stood behind the trigger or behind the breaking
 * @param time nanoseconds, when the event was logged
 * @param signal index of the signal
 * @param value engine value, as in {@link EventSink#event}
 * @param line 1-based line of the trace, 0 where there is none
 * @param wasLogged false where there was no event at all: the signal was unknown from the start
 */
public record Evidence(Moment moment, long time, int signal, long value, long line, boolean wasLogged) {

  /** An event that was logged. */
  public Evidence(Moment moment, long time, int signal, long value, long line) {
    this(moment, time, signal, value, line, true);
  }

  /** Which side of a finding an event stands behind. */
  public enum Moment {
    TRIGGER,
    BREAK
  }
}

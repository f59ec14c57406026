package dev.pawl.report.model;

import dev.pawl.engine.Evidence;
import java.util.Optional;

/**
 * One event behind a finding, in the words of the rule file.
 *
 * @param moment which side of the finding it stands behind
 * @param time nanoseconds, when it was logged
 * @param signal the signal's name
 * @param value the value in the signal's written unit, such as {@code 1.4 m/s}, {@code true} or {@code unknown}
 * @param file the trace
 * @param line 1-based line of the trace, 0 where there is none
 * @param wasLogged false where there was no event at all: the signal was unknown from the start
 * @param writtenBy the line of the program under test that gave the value, where a program did
 */
public record EvidenceResult(Evidence.Moment moment, long time, String signal, String value, String file, long line,
    boolean wasLogged, Optional<ProgramPlace> writtenBy) {

  /** An event that a trace holds. */
  public EvidenceResult(Evidence.Moment moment, long time, String signal, String value, String file, long line) {
    this(moment, time, signal, value, file, line, true, Optional.empty());
  }

  /** Whether it is the same event, whichever side of the finding it stands behind. */
  public boolean isSameEventAs(EvidenceResult other) {
    return time == other.time && line == other.line && signal.equals(other.signal);
  }

  /** {@code file:line} with the file's name only, for where the whole path stands above. */
  public String shortPlace() {
    return FileName.of(place());
  }

  /**
   * {@code file:line} of the program where a program gave the value, else of the trace, or the file alone where there
   * is no line.
   */
  public String place() {
    if (writtenBy.isPresent()) {
      return writtenBy.get().file() + ":" + writtenBy.get().line();
    }
    return line > 0 ? file + ":" + line : file;
  }
}

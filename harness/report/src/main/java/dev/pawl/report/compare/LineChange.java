package dev.pawl.report.compare;

import dev.pawl.report.model.ProgramPlace;
import dev.pawl.report.model.TimeBase;
import java.util.Optional;

/**
 * A line by which two versions of a program differ, and whether that ever came into play.
 *
 * @param before where it was; empty for a new line
 * @param after where it is; empty for one that is gone
 * @param effect what became of it in all traces together
 * @param scansBefore in how many scans the statement that it was part of ran
 * @param scansAfter the same in the later version
 * @param differing in how many scans that came to something else than before
 * @param first the first of them
 * @param limit the first trace and time from which on nothing was compared, since too much had changed until then
 */
public record LineChange(Optional<ProgramPlace> before, Optional<ProgramPlace> after, Effect effect, long scansBefore,
    long scansAfter, long differing, Optional<Instant> first, Optional<Instant> limit) {

  /** What became of a changed line. */
  public enum Effect {
    /** What it comes to was something else than before at least once. */
    DIFFERED,
    /** It ran, and came to the same as before in every scan. */
    ALIKE,
    /** It ran, and the other version has nothing that it could be compared with. */
    NO_PARTNER,
    /** It never ran. */
    NEVER_RAN,
    /** It is no part of a statement. */
    NO_STATEMENT
  }

  /** A moment in one of the traces. */
  public record Instant(String trace, TimeBase base, long time) {}
}

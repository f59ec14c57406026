package dev.pawl.report.compare;

/**
 * An edge of an output that is not the same in two runs.
 *
 * @param kind what became of it
 * @param value the value that the output took, in words
 * @param before nanoseconds, when it took it in the first run; of no meaning where it was added
 * @param after nanoseconds, when it took it in the second run; of no meaning where it vanished
 */
public record EdgeChange(Kind kind, String value, long before, long after) {

  /** What became of an edge. */
  public enum Kind {
    MOVED,
    VANISHED,
    ADDED
  }

  /** When it was, or where it is new is. */
  public long time() {
    return kind == Kind.ADDED ? after : before;
  }

  /** Nanoseconds by which it moved; later is positive. */
  public long shift() {
    return kind == Kind.MOVED ? after - before : 0;
  }
}

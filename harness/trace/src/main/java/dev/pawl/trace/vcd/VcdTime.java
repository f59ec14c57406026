package dev.pawl.trace.vcd;

import dev.pawl.trace.bytes.Decimals;
import dev.pawl.trace.intake.Excerpt;
import dev.pawl.trace.intake.Intake;
import dev.pawl.trace.intake.ProblemKind;
import dev.pawl.trace.intake.UnreadableTrace;
import dev.pawl.trace.time.TimeReader;

/** The time of a dump, as its marks move it on; zero before the first. */
final class VcdTime {

  private Timescale scale = Timescale.NANOSECOND;
  private long steps;
  private long now;
  private long changedAtSteps = -1;
  private long changedAt = -1;
  private long finer;
  private boolean marked;

  void scale(Timescale stated) {
    scale = stated;
  }

  /** Nanoseconds. */
  long now() {
    return now;
  }

  long finer() {
    return finer;
  }

  /** Takes the digits of a mark {@code #digits}. */
  void mark(byte[] bytes, int from, int to, Intake intake, long line) {
    long read = 0;
    int at = from;
    while (at < to && Decimals.isDigit(bytes[at]) && read < Long.MAX_VALUE / 10 - 1) {
      read = read * 10 + bytes[at++] - '0';
    }
    if (at < to || from == to || read / scale.steps() > TimeReader.LIMIT / scale.nanoseconds()) {
      intake.problems().add(ProblemKind.WRONG_TIME, line, 1, to - from + 1,
          () -> "'#' and " + Excerpt.of(bytes, from, to)
          + " make no time that nanoseconds can count", () -> "write # and a whole number of the stated timescale");
      return;
    }
    steps = read;
    long rest = steps % scale.steps() * scale.nanoseconds();
    now = steps / scale.steps() * scale.nanoseconds() + rest / scale.steps();
    finer += rest % scale.steps() == 0 ? 0 : 1;
    marked = true;
    intake.pass(now, line);
  }

  /**
   * Notes that a signal changes here. Two marks within a nanosecond would become one instant, and their order would be
   * lost.
   */
  void changes(Intake intake, long line) throws UnreadableTrace {
    if (changedAt == now && changedAtSteps != steps) {
      throw intake.problems().fatal(ProblemKind.UNREADABLE, line, 1,
          "signals change at two times within one nanosecond, the least that is told apart here",
          "write the dump with a timescale of 1 ns or more");
    }
    changedAt = now;
    changedAtSteps = steps;
  }

  /** The last mark is where the dump ends. */
  void end(Intake intake, long line) {
    if (marked && intake.isAt(now)) {
      intake.stateEnd(now, line);
    }
  }
}

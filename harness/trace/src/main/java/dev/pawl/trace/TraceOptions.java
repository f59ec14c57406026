package dev.pawl.trace;

import dev.pawl.grammar.rules.model.RuleBook;
import dev.pawl.trace.bindings.Bindings;
import dev.pawl.trace.time.TimeScale;
import java.util.Arrays;
import java.util.Optional;

/**
 * How to read traces.
 *
 * @param book declares the signals
 * @param needed by signal index, whether the signal's events are sent on; those of others are only checked
 * @param bindings maps tags to signals
 * @param timeScale how times are written, where stated as an option; it goes before the bindings
 * @param format the format, where stated; else it is known by the first bytes
 * @param lenient whether bad rows are left out and counted, rather than making the trace unusable
 * @param listed how many problems to describe; the rest are only counted
 * @param ahead whether to decode on a second thread while the events are judged on this one
 */
public record TraceOptions(RuleBook book, boolean[] needed, Bindings bindings, Optional<TimeScale> timeScale,
    Optional<TraceFormat> format, boolean lenient, int listed, boolean ahead) {

  /** How many problems are described unless stated otherwise. */
  public static final int LISTED = 20;

  public TraceOptions {
    needed = needed.clone();
  }

  /** Strict reading, on one thread, of all signals of a rule book. */
  public static TraceOptions of(RuleBook book) {
    boolean[] all = new boolean[book.signals().size()];
    Arrays.fill(all, true);
    return new TraceOptions(book, all, Bindings.NONE, Optional.empty(), Optional.empty(), false, LISTED, false);
  }

  @Override
  public boolean[] needed() {
    return needed.clone();
  }

  public TraceOptions withNeeded(boolean[] signals) {
    return new TraceOptions(book, signals, bindings, timeScale, format, lenient, listed, ahead);
  }

  public TraceOptions withBindings(Bindings other) {
    return new TraceOptions(book, needed, other, timeScale, format, lenient, listed, ahead);
  }

  public TraceOptions withTimeScale(TimeScale scale) {
    return new TraceOptions(book, needed, bindings, Optional.of(scale), format, lenient, listed, ahead);
  }

  public TraceOptions withFormat(TraceFormat stated) {
    return new TraceOptions(book, needed, bindings, timeScale, Optional.of(stated), lenient, listed, ahead);
  }

  public TraceOptions withLenient(boolean on) {
    return new TraceOptions(book, needed, bindings, timeScale, format, on, listed, ahead);
  }

  public TraceOptions withListed(int count) {
    return new TraceOptions(book, needed, bindings, timeScale, format, lenient, count, ahead);
  }

  public TraceOptions withAhead(boolean on) {
    return new TraceOptions(book, needed, bindings, timeScale, format, lenient, listed, on);
  }
}

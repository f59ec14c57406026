package dev.pawl.mqtt.feed;

import dev.pawl.engine.EventSink;
import dev.pawl.grammar.rules.model.Signal;
import dev.pawl.trace.csv.CsvWriter;
import dev.pawl.trace.output.TraceWriter;
import dev.pawl.trace.time.TimeScale;
import java.io.Closeable;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.util.List;
import java.util.Optional;
import java.util.function.Supplier;

/**
 * The merged stream as a trace file. If the medium fails, the file keeps every whole row that was written and ends
 * there, recording stops for good, and the reason and the number of events that came too late for it are kept. A
 * recording may continue an earlier one in the same file: then nothing is known from the end of that one until each
 * signal's next value.
 */
public final class Recording implements Closeable {

  private static final long HEADER_LINES = 1;

  private final Supplier<RowFile> opening;
  private final List<Signal> signals;
  private final TimeScale scale;
  private final Optional<Earlier> earlier;
  private RowFile file;
  private TraceWriter writer;
  private long linesBefore = HEADER_LINES;
  private long earliest = Long.MIN_VALUE;
  private String failure = "";
  private long rows;
  private long securedRows;

  /**
   * What stands in the file already.
   *
   * @param lines its lines, the header among them
   * @param end nanoseconds, up to which it knows its signals
   * @param signals those that have a value in it
   */
  public record Earlier(long lines, long end, List<Integer> signals) {

    public Earlier {
      signals = List.copyOf(signals);
    }

    /** From here on each of its signals is unknown until its next value: what was the last may have changed since. */
    public long forgotten() {
      return end + 1;
    }

    /** Tells a judge that has been told all of it so, as the file does. */
    public void forget(EventSink judge) {
      long line = lines;
      for (int signal : signals) {
        judge.event(forgotten(), signal, EventSink.UNKNOWN, ++line);
      }
    }
  }

  /** A recording into the file; its header is written at once. */
  public Recording(RowFile file, List<Signal> signals, TimeScale scale) {
    this(() -> file, Optional.empty(), signals, scale);
    begin();
  }

  /**
   * A recording that touches its file only when it begins.
   *
   * @param opening opens the file, which stands behind the earlier recording if there is one
   * @param earlier the recording to be continued
   */
  public Recording(Supplier<RowFile> opening, Optional<Earlier> earlier, List<Signal> signals, TimeScale scale) {
    this.opening = opening;
    this.earlier = earlier;
    this.signals = List.copyOf(signals);
    this.scale = scale;
  }

  /**
   * Opens the file and writes its header, or where the earlier recording's knowledge ends; does nothing if it has
   * begun.
   */
  public void begin() {
    if (file != null) {
      return;
    }
    file = opening.get();
    writer = earlier.isPresent() ? CsvWriter.continuing(file, signals, scale) : new CsvWriter(file, signals, scale);
    earlier.ifPresent(this::forget);
    secure();
  }

  private void forget(Earlier recording) {
    earliest = recording.forgotten();
    recording.forget(writer);
    linesBefore = recording.lines() + recording.signals().size();
  }

  /** The recording that is continued. */
  public Optional<Earlier> earlier() {
    return earlier;
  }

  /** Whether a value of that time stands before what the file knows already, so that it is not taken. */
  boolean isTooEarly(long time) {
    return time < earliest;
  }

  /** Lines of the file before the first event. */
  long linesBefore() {
    return linesBefore;
  }

  void event(long time, int signal, long value) {
    if (isTooEarly(time) && failure.isEmpty()) {
      fail(new IOException("a value came whose time is not after the end of the recording that is continued; begin"
          + " another file"));
    }
    if (failure.isEmpty()) {
      try {
        writer.event(time, signal, value, 0);
        rows++;
      } catch (UncheckedIOException e) {
        fail(e.getCause());
      }
    }
  }

  /** Hands all rows to the file system. */
  public void secure() {
    if (failure.isEmpty() && (rows > securedRows || rows == 0)) {
      try {
        writer.flush();
        securedRows = rows;
      } catch (UncheckedIOException e) {
        fail(e.getCause());
      }
    }
  }

  private void fail(IOException cause) {
    failure = cause.getMessage() == null ? cause.getClass().getSimpleName() : cause.getMessage();
    file.cutToWholeRows();
  }

  /** Why recording ended early; empty if it did not. */
  public Optional<String> failure() {
    return failure.isEmpty() ? Optional.empty() : Optional.of(failure);
  }

  /** States where the stream ends, if it has begun: the earliest of all times is none. */
  public void end(long time) {
    long end = Math.max(time, earliest);
    if (failure.isEmpty() && end > Long.MIN_VALUE) {
      try {
        writer.end(end);
        writer.flush();
      } catch (UncheckedIOException e) {
        fail(e.getCause());
      }
    }
  }

  @Override
  public void close() {
    if (file == null) {
      return;
    }
    try {
      if (failure.isEmpty()) {
        writer.close();
      } else {
        file.close();
      }
    } catch (IOException e) {
      fail(e);
    }
  }
}

package dev.pawl.cli;

import dev.pawl.engine.EventSink;
import dev.pawl.grammar.rules.model.Signal;
import dev.pawl.trace.csv.CsvWriter;
import dev.pawl.trace.output.TraceWriter;
import dev.pawl.trace.time.TimeScale;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.channels.Channels;
import java.nio.channels.FileChannel;
import java.util.List;
import java.util.Optional;
import java.util.OptionalLong;
import java.util.function.BooleanSupplier;

/**
 * The keeping of what was judged as a trace of its own, which {@code pawl check} judges the same.
 *
 * @param trace where it goes; empty where nothing is kept
 */
record Keeping(Optional<KeptTrace> trace) {

  boolean isWanted() {
    return trace.isPresent();
  }

  /** A judge whose events are kept, if that is wanted. */
  Kept of(EventSink judge, List<Signal> signals, BooleanSupplier calendar) {
    return isWanted() ? new Writing(judge, trace.get(), signals, calendar) : new Kept(judge);
  }

  /** A judge. */
  static class Kept implements EventSink {

    private final EventSink judge;

    Kept(EventSink judge) {
      this.judge = judge;
    }

    @Override
    public void event(long time, int signal, long value, long line) {
      judge.event(time, signal, value, line);
    }

    @Override
    public void advanceTo(long time) {
      judge.advanceTo(time);
    }

    /** Nothing follows; the trace ends at the given time, if it is of any use. */
    void close(OptionalLong end) {}
  }

  /** A judge whose events go to a file as well. */
  private static final class Writing extends Kept {

    private final KeptTrace trace;
    private final List<Signal> signals;
    private final BooleanSupplier calendar;
    private FileChannel channel;
    private TraceWriter writer;

    private Writing(EventSink judge, KeptTrace trace, List<Signal> signals, BooleanSupplier calendar) {
      super(judge);
      this.trace = trace;
      this.signals = signals;
      this.calendar = calendar;
    }

    @Override
    public void event(long time, int signal, long value, long line) {
      super.event(time, signal, value, line);
      try {
        if (writer == null) {
          open();
        }
        writer.event(time, signal, value, line);
      } catch (UncheckedIOException e) {
        throw trouble(e.getCause());
      }
    }

    private void open() {
      channel = trace.open();
      writer = new CsvWriter(Channels.newOutputStream(channel), signals,
          calendar.getAsBoolean() ? TimeScale.RFC_3339 : TimeScale.NANOSECONDS);
    }

    @Override
    void close(OptionalLong end) {
      if (writer == null) {
        return;
      }
      try (TraceWriter closing = writer) {
        if (end.isPresent()) {
          closing.end(end.getAsLong());
          closing.flush();
          trace.finish();
        } else {
          trace.giveUp();
        }
      } catch (UncheckedIOException e) {
        throw trouble(e.getCause());
      } catch (IOException e) {
        throw trouble(e);
      }
    }

    /** A trace that is not whole is of no use. */
    private CommandException trouble(IOException problem) {
      try {
        channel.close();
      } catch (IOException e) {
        problem.addSuppressed(e);
      }
      trace.giveUp();
      return KeptFiles.trouble(trace.file(), problem);
    }
  }
}

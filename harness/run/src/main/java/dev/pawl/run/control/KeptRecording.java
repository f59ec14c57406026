package dev.pawl.run.control;

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

/** The recording of what is judged, as a trace that is judged the same. */
final class KeptRecording {

  private KeptRecording() {}

  /** A judge whose events are recorded, if there is a file for that. */
  static Kept of(Optional<RecordingFile> file, EventSink judge, List<Signal> signals, BooleanSupplier calendar) {
    return file.isPresent() ? new Writing(judge, file.get(), signals, calendar) : new Kept(judge);
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

    private final RecordingFile trace;
    private final List<Signal> signals;
    private final BooleanSupplier calendar;
    private FileChannel channel;
    private TraceWriter writer;

    private Writing(EventSink judge, RecordingFile trace, List<Signal> signals, BooleanSupplier calendar) {
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
    private RuntimeException trouble(IOException problem) {
      try {
        channel.close();
      } catch (IOException e) {
        problem.addSuppressed(e);
      }
      trace.giveUp();
      return trace.trouble(problem);
    }
  }
}

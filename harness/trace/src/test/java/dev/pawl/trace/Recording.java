package dev.pawl.trace;

import dev.pawl.engine.EventSink;
import dev.pawl.trace.intake.Progress;
import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;

/** A sink that keeps what it was told, and the reading that told it. */
public final class Recording implements EventSink {

  /** One event without its line. */
  public record Event(long time, int signal, long value) {}

  private final List<Event> events = new ArrayList<>();
  private final List<Long> lines = new ArrayList<>();
  private final List<Long> advances = new ArrayList<>();
  private TraceSummary summary;

  public static Recording of(String trace, TraceOptions options) {
    return of(trace.getBytes(StandardCharsets.UTF_8), options);
  }

  public static Recording of(byte[] trace, TraceOptions options) {
    Recording recording = new Recording();
    try (TraceReader reader = Traces.open(new ByteArrayInputStream(trace), "trace", options)) {
      recording.summary = reader.readTo(recording, Progress.NONE);
      return recording;
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  @Override
  public void event(long time, int signal, long value, long line) {
    events.add(new Event(time, signal, value));
    lines.add(line);
  }

  @Override
  public void advanceTo(long time) {
    advances.add(time);
  }

  public List<Event> events() {
    return events;
  }

  public List<Long> lines() {
    return lines;
  }

  public List<Long> advances() {
    return advances;
  }

  public TraceSummary summary() {
    return summary;
  }
}

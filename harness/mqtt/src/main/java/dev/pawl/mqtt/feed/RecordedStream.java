package dev.pawl.mqtt.feed;

import dev.pawl.engine.EventSink;
import java.util.Optional;

/**
 * Sends the merged stream into a recording and into an engine at once, each event with the line of the recording that
 * holds it, so that evidence found live names the same lines as evidence found in the file.
 */
public final class RecordedStream implements EventSink {

  private static final long HEADER_LINES = 1;

  private final Optional<Recording> recording;
  private final EventSink judge;
  private long events;
  private long lastTime = Long.MIN_VALUE;

  public RecordedStream(Optional<Recording> recording, EventSink judge) {
    this.recording = recording;
    this.judge = judge;
  }

  @Override
  public void event(long time, int signal, long value, long unused) {
    if (recording.isPresent()) {
      recording.get().event(time, signal, value);
    }
    if (isTooEarly(time)) {
      return;
    }
    lastTime = time;
    events++;
    judge.event(time, signal, value, linesBefore() + events);
  }

  private long linesBefore() {
    return recording.isPresent() ? recording.get().linesBefore() : HEADER_LINES;
  }

  @Override
  public void advanceTo(long time) {
    if (!isTooEarly(time)) {
      judge.advanceTo(time);
    }
  }

  /** A judge that has been told what is continued is told of no earlier time. */
  private boolean isTooEarly(long time) {
    return recording.isPresent() && recording.get().isTooEarly(time);
  }

  /** Events so far. */
  public long events() {
    return events;
  }

  /** Time of the last event, in nanoseconds. */
  public long lastTime() {
    return lastTime;
  }
}

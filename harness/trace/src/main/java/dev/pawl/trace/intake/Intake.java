package dev.pawl.trace.intake;

import dev.pawl.engine.EventSink;
import java.util.Arrays;
import java.util.OptionalLong;

/**
 * The one gate to the engine: every event of every format passes {@link #accept}, which sees to order and duplicates
 * and leaves out what no rule needs.
 */
public final class Intake {

  /** No time: earlier than all. */
  private static final long NEVER = Long.MIN_VALUE;

  /** Of a row of which only the time counts. */
  private static final int NO_CHANNEL = -1;

  /** What is known of a channel. */
  private static final class Lane {
    final int signal;
    long lastTime = NEVER;
    long lastValue;
    /** Whether it has had a row since the row that was lost. */
    boolean heard;

    Lane(int signal) {
      this.signal = signal;
    }
  }

  private final Channels channels;
  private final Problems problems;
  private final EventSink sink;
  private Lane[] lanes;
  private long first = NEVER;
  private long last = NEVER;
  private long events;
  private long sent;
  private long end = NEVER;
  private long endLine;
  private final long reorder;
  private final ReorderWindow window;
  private final ReorderWindow.Taker taker = this::inOrder;
  /** The latest time that has come, whether it has been taken already or waits. */
  private long newest = NEVER;
  private boolean lost;
  private long lostLine;

  /**
   * An intake that puts rows in order of time.
   *
   * @param reorder nanoseconds, how much later than a later row a row may come; 0 if not at all
   */
  public Intake(Channels channels, Problems problems, EventSink sink, long reorder) {
    this.reorder = reorder;
    this.window = reorder > 0 ? new ReorderWindow() : null;
    this.channels = channels;
    this.problems = problems;
    this.sink = sink;
    this.lanes = new Lane[0];
    follow(channels.size());
    problems.whenLost(this::lose);
  }

  public Channels channels() {
    return channels;
  }

  public Problems problems() {
    return problems;
  }

  private void follow(int count) {
    int before = lanes.length;
    lanes = Arrays.copyOf(lanes, count);
    for (int channel = before; channel < count; channel++) {
      lanes[channel] = new Lane(channels.signal(channel));
    }
  }

  /**
   * Takes an event of a channel that carries a signal, once tag, time and value are read.
   *
   * @param value engine value
   */
  public void accept(long time, int channel, long value, long line) {
    if (window != null) {
      hold(time, channel, value, line);
    } else {
      inOrder(time, channel, value, line);
    }
  }

  private void hold(long time, int channel, long value, long line) {
    if (isLate(time)) {
      late(lanes[channel], line);
      return;
    }
    window.add(time, channel, value, line);
    proceed(time);
  }

  private boolean isLate(long time) {
    return newest != NEVER && time < newest - reorder;
  }

  /** Nothing can come any more that is earlier than the latest time less the window. */
  private void proceed(long time) {
    if (time > newest) {
      newest = time;
      window.releaseBefore(newest - reorder, taker);
    }
  }

  private void inOrder(long time, int channel, long value, long line) {
    if (channel == NO_CHANNEL) {
      passInOrder(time, line);
      return;
    }
    Lane lane = lanes[channel];
    if (time < last) {
      late(lane, line);
    } else if (time == lane.lastTime && value == lane.lastValue) {
      duplicate(channel, line);
    } else {
      take(time, lane, value, line);
    }
  }

  /** Takes an event of a format that may say a thing twice in an instant; the second time it is no event. */
  public void change(long time, int channel, long value, long line) {
    Lane lane = lanes[channel];
    if (time < last) {
      late(lane, line);
    } else if (time != lane.lastTime || value != lane.lastValue) {
      take(time, lane, value, line);
    }
  }

  /**
   * Takes a value that a format lists for completeness; where it is what was known before, or unknown from the first,
   * it is no event.
   */
  public void restate(long time, int channel, long value, long line) {
    boolean known = seen(channel) ? value == lanes[channel].lastValue : value == EventSink.UNKNOWN;
    if (!known) {
      change(time, channel, value, line);
    }
  }

  /**
   * Takes a row whose value cannot be used: what its signal was before, it need not be any more, so it becomes unknown.
   * One that comes late makes it unknown from now on.
   */
  public void doubt(long time, int channel, long line) {
    if (window != null) {
      hold(time, channel, EventSink.UNKNOWN, line);
      return;
    }
    doubt(Math.max(time, last), lanes[channel], line);
  }

  private void doubt(long time, Lane lane, long line) {
    if (lost && time > last) {
      doubtAll();
    }
    if (lane.lastTime == NEVER || lane.lastValue != EventSink.UNKNOWN) {
      take(time, lane, EventSink.UNKNOWN, line);
    }
  }

  /** A row that comes late leaves its signal in doubt: who knows which of the times is right. */
  private void late(Lane lane, long line) {
    outOfOrder(line);
    overtaken(lane, line);
  }

  /** The same for one signal of a row whose coming late {@link #pass} has counted. */
  public void overtaken(int channel, long line) {
    overtaken(lanes[channel], line);
  }

  private void overtaken(Lane lane, long line) {
    if (lane.lastTime != NEVER) {
      doubt(last, lane, line);
    }
  }

  /** A row of nobody knows what signal was left out: any of them may have changed. */
  private void lose(long line) {
    if (window != null) {
      window.releaseBefore(Long.MAX_VALUE, taker);
    }
    lost = last != NEVER;
    lostLine = line;
    for (Lane lane : lanes) {
      lane.heard = false;
    }
  }

  /**
   * Right after the time of the last row before the one that was lost, all signals are unknown that had no row since.
   */
  private void doubtAll() {
    lost = false;
    long time = last + 1;
    for (Lane lane : lanes) {
      if (!lane.heard && lane.lastTime != NEVER && lane.lastValue != EventSink.UNKNOWN && lane.signal >= 0) {
        take(time, lane, EventSink.UNKNOWN, lostLine);
      }
    }
  }

  private void take(long time, Lane lane, long value, long line) {
    if (lost) {
      if (time > last) {
        doubtAll();
      }
      lane.heard = true;
    }
    lane.lastTime = time;
    lane.lastValue = value;
    int signal = lane.signal;
    if (last == NEVER) {
      begin(time, signal);
    }
    last = time;
    events++;
    if (signal >= 0) {
      sent++;
      sink.event(time, signal, value, line);
    }
  }

  /** The trace starts at its first event, even if that one is not sent on. */
  private void begin(long time, int signal) {
    first = time;
    if (signal < 0) {
      sink.advanceTo(time);
    }
  }

  /** Takes the time of a row whose tag is left out; it counts as part of the trace. */
  public void pass(long time, long line) {
    if (window != null) {
      if (isLate(time)) {
        outOfOrder(line);
      } else {
        window.add(time, NO_CHANNEL, 0, line);
        proceed(time);
      }
      return;
    }
    passInOrder(time, line);
  }

  private void passInOrder(long time, long line) {
    if (time < last) {
      outOfOrder(line);
      return;
    }
    if (lost && time > last) {
      doubtAll();
    }
    if (last == NEVER) {
      begin(time, -1);
    }
    last = time;
  }

  /** Whether the row of the given time, which {@link #pass} has just been told, is in order. */
  public boolean isAt(long time) {
    return window == null ? last == time : !isLate(time);
  }

  /** Counts a row whose tag is unknown; tells of each tag once. */
  public void unbound(int channel, String tag, long line, int column) {
    if (channel >= lanes.length) {
      follow(channels.size());
    }
    Lane lane = lanes[channel];
    if (lane.lastTime != NEVER) {
      problems.again(ProblemKind.UNBOUND);
      return;
    }
    lane.lastTime = 0;
    problems.add(ProblemKind.UNBOUND, line, column, tag.length(),
        () -> "the rules declare no signal " + Excerpt.of(tag),
        () -> channels.advice(tag));
  }

  /** States when the trace ends; events may still follow, but none later than that. */
  public void stateEnd(long time, long line) {
    end = time;
    endLine = line;
  }

  /** Tells the sink how far the trace goes; a stated end that cannot be right is left out. */
  public void finish() {
    if (window != null) {
      window.releaseBefore(Long.MAX_VALUE, taker);
    }
    if (lost && end > last) {
      doubtAll();
    }
    if (last != NEVER) {
      sink.advanceTo(last);
    }
    if (last != NEVER && end != NEVER && end < last) {
      problems.add(ProblemKind.OUT_OF_ORDER, endLine, 1, "the stated end is earlier than the last event",
          "state a later end, or leave it out");
      end = NEVER;
    }
  }

  private void outOfOrder(long line) {
    problems.add(ProblemKind.OUT_OF_ORDER, line, 1, 1, () -> "this time is earlier than that of a row before it",
        () -> "sort the rows by time, state under 'session' in a bindings file how late one may come, such as: "
            + "reorder 2 s, or leave such"
            + " rows out with --lenient");
  }

  private void duplicate(int channel, long line) {
    problems.add(ProblemKind.DUPLICATE, line, 1, 1,
        () -> "signal " + Excerpt.of(channels.tag(channel)) + " has this value at this time already",
        () -> "remove the repeated row, or leave such rows out with --lenient");
  }

  /** Time of the first event. */
  public OptionalLong first() {
    return first == NEVER ? OptionalLong.empty() : OptionalLong.of(first);
  }

  /** Time of the last event, those not sent on included. */
  public OptionalLong last() {
    return last == NEVER ? OptionalLong.empty() : OptionalLong.of(last);
  }

  /** The trace's stated end. */
  public OptionalLong statedEnd() {
    return end == NEVER ? OptionalLong.empty() : OptionalLong.of(end);
  }

  /** Events of signals, those not sent on included. */
  public long events() {
    return events;
  }

  /** Events sent on. */
  public long sent() {
    return sent;
  }

  /** Whether the channel of a signal has had an event. */
  public boolean seen(int channel) {
    return lanes[channel].lastTime != NEVER;
  }
}

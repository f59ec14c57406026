package dev.pawl.engine.zone;

import dev.pawl.engine.Evidence;
import dev.pawl.engine.graph.Moments;
import dev.pawl.engine.graph.SignalTable;
import java.util.List;

/** The state of a few signals at the time something was counted, kept until the next count. */
final class EventCapture {

  private final int[] signals;
  private final long[] value;
  private final long[] time;
  private final long[] line;
  private boolean taken;

  EventCapture(int[] signals) {
    this.signals = signals;
    value = new long[signals.length];
    time = new long[signals.length];
    line = new long[signals.length];
  }

  void take(SignalTable table, long moment) {
    taken = true;
    for (int i = 0; i < signals.length; i++) {
      value[i] = table.value[signals[i]];
      long changedAt = table.changedAt[signals[i]];
      time[i] = changedAt == Moments.NEVER ? Moments.nanoseconds(moment) : changedAt;
      line[i] = table.changedLine[signals[i]];
    }
  }

  void show(Evidence.Moment moment, List<Evidence> evidence) {
    for (int i = 0; taken && i < signals.length; i++) {
      evidence.add(new Evidence(moment, time[i], signals[i], value[i], line[i]));
    }
  }
}

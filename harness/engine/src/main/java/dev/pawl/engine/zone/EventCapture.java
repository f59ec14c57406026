package dev.pawl.engine.zone;

import dev.pawl.engine.Evidence;
import dev.pawl.engine.graph.Moments;
import dev.pawl.engine.graph.SignalState;
import java.util.List;

/** The state of a few signals at the time something was counted, kept until the next count. */
final class EventCapture {

  private final SignalState[] signals;
  private final long[] value;
  private final long[] time;
  private final long[] line;
  private final boolean[] wasLogged;
  private boolean taken;

  EventCapture(SignalState[] signals) {
    this.signals = signals;
    value = new long[signals.length];
    time = new long[signals.length];
    line = new long[signals.length];
    wasLogged = new boolean[signals.length];
  }

  void take(long moment) {
    taken = true;
    for (int i = 0; i < signals.length; i++) {
      SignalState signal = signals[i];
      value[i] = signal.value;
      wasLogged[i] = signal.changedAt != Moments.NEVER;
      time[i] = wasLogged[i] ? signal.changedAt : Moments.nanoseconds(moment);
      line[i] = signal.changedLine;
    }
  }

  void show(Evidence.Moment moment, List<Evidence> evidence) {
    for (int i = 0; taken && i < signals.length; i++) {
      evidence.add(new Evidence(moment, time[i], signals[i].index, value[i], line[i], wasLogged[i]));
    }
  }
}

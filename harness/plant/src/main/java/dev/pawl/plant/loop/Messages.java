package dev.pawl.plant.loop;

import dev.pawl.plant.scenario.Doing;
import dev.pawl.plant.scenario.Fault;
import java.util.ArrayDeque;
import java.util.Map;
import java.util.TreeMap;

/** What arrives of the values that are sent: all of it and at once, unless messages of a signal are lost or late. */
final class Messages {

  private static final double NEAR = 1e-9;

  private final double[] sent;
  private final double[] arrived;
  private final Map<Integer, Way> disturbed = new TreeMap<>();

  /** A signal whose messages fail. */
  private static final class Way {
    boolean silent;
    double late;
    double last;
    final ArrayDeque<Message> underway = new ArrayDeque<>();
  }

  private record Message(double due, double value) {}

  Messages(double[] sent) {
    this.sent = sent;
    arrived = sent.clone();
  }

  /** Values as they have arrived. */
  double[] arrived() {
    return disturbed.isEmpty() ? sent : arrived;
  }

  /** Messages of a signal fail from now on, or no more: then it is told what is so, and what was underway is gone. */
  void fail(int signal, Doing.Fail fail) {
    Way way = disturbed.computeIfAbsent(signal, unused -> new Way());
    if (disturbed.size() == 1) {
      System.arraycopy(sent, 0, arrived, 0, sent.length);
    }
    if (fail.fault() == Fault.SILENT) {
      way.silent = fail.begins();
    } else {
      way.late = fail.begins() ? fail.amount() : 0;
    }
    way.last = arrived[signal];
    way.underway.clear();
    if (!way.silent && way.late == 0) {
      disturbed.remove(signal);
    }
  }

  /**
   * Lets arrive what is due.
   *
   * @return whether something may have arrived at another time than it was sent
   */
  boolean look(double time) {
    if (disturbed.isEmpty()) {
      return false;
    }
    for (int signal = 0; signal < sent.length; signal++) {
      Way way = disturbed.get(signal);
      arrived[signal] = way == null ? sent[signal] : arrives(way, signal, time);
    }
    return true;
  }

  private double arrives(Way way, int signal, double time) {
    if (!way.silent && sent[signal] != way.last) {
      way.last = sent[signal];
      way.underway.add(new Message(time + way.late, sent[signal]));
    }
    double value = arrived[signal];
    while (!way.underway.isEmpty() && way.underway.peek().due() <= time + NEAR) {
      value = way.underway.remove().value();
    }
    return value;
  }
}

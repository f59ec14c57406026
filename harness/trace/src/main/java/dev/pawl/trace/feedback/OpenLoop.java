package dev.pawl.trace.feedback;

import dev.pawl.engine.EventSink;
import dev.pawl.grammar.rules.model.Rule;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.PriorityQueue;

/**
 * Passes on what a controller and a recording give together, and compares the controller's outputs with the recorded
 * ones. Right after the beginning of the first difference that lasts too long, the signals that follow that output are
 * unknown: the ride would not have done what it did. As long as it is not known whether a difference lasts, events
 * wait.
 */
public final class OpenLoop implements EventSink {

  /** The line of an event that makes a signal unknown: negative, as of a program, but none of its lines. */
  private static final long NO_LINE = -(1L << 54);

  private final Feedback feedback;
  private final EventSink judge;
  private final OutputPair[] pairs;
  private final List<OutputPair> compared = new ArrayList<>();
  private final boolean[] known;
  private final long[] doubted;
  private final HeldEvents held = new HeldEvents();
  private final List<Departure> departures = new ArrayList<>();
  /** Signals that become unknown, in order of time. */
  private final PriorityQueue<Doubt> doubts = new PriorityQueue<>();
  /**
   * How long after a difference feedback still is as recorded: what is nearer to it cannot be told from what was at the
   * same time.
   */
  private final long unseen;
  /** No difference is due up to this time. */
  private long due = OutputPair.NOT_DUE;
  /** What comes up to this time is evidence. */
  private long sound = OutputPair.NOT_DUE;

  private record Doubt(long time, int signal) implements Comparable<Doubt> {
    @Override
    public int compareTo(Doubt other) {
      return Long.compare(time, other.time);
    }
  }

  public OpenLoop(Feedback feedback, EventSink judge) {
    this.feedback = feedback;
    this.judge = judge;
    this.unseen = Math.max(1, feedback.book().rules().stream().mapToLong(Rule::resolution).max().orElse(0));
    int signals = feedback.book().signals().size();
    this.known = new boolean[signals];
    this.doubted = new long[signals];
    Arrays.fill(doubted, Long.MAX_VALUE);
    this.pairs = new OutputPair[signals];
    for (int output : feedback.moving()) {
      boolean number = feedback.book().signals().get(output).type().isNumber();
      pairs[output] = new OutputPair(output, feedback.late(output), number ? SameValue.ofNumbers(feedback.off(output))
          : SameValue.EXACT);
      compared.add(pairs[output]);
    }
  }

  @Override
  public void event(long time, int signal, long value, long line) {
    if (due < time) {
      settle(time);
    }
    if (time <= sound && held.isEmpty()) {
      pass(time, signal, value, line);
    } else {
      held.add(time, signal, value, line);
    }
    if (pairs[signal] != null) {
      pairs[signal].compute(time, value);
      look();
    }
  }

  @Override
  public void advanceTo(long time) {
    if (due < time) {
      settle(time);
    }
    if (time <= sound && held.isEmpty()) {
      judge.advanceTo(time);
    }
  }

  /** Takes what the trace says of an output; comes in order of time with the events. */
  public void recorded(long time, int output, long value) {
    if (due < time) {
      settle(time);
    }
    if (pairs[output] != null) {
      pairs[output].record(time, value);
      look();
    }
  }

  /** The trace ends here, and differences that are not too long yet with it. */
  public void finish(long end) {
    settle(end);
    compared.forEach(OutputPair::forgive);
    look();
    doubtUntil(end);
  }

  /** The first difference of each output that lasted too long, in the order in which that came out. */
  public List<Departure> departures() {
    return departures;
  }

  /** Whether the trace has values of an output, from its first change on. */
  public boolean isRecorded(int output) {
    return pairs[output] != null && pairs[output].isRecorded();
  }

  /** Gives up those outputs that have been other than recorded for too long by now. */
  private void settle(long time) {
    for (OutputPair pair : compared) {
      if (pair.due() < time) {
        long from = pair.sound() + unseen;
        departures.add(pair.depart());
        feedback.followers(departures.get(departures.size() - 1).output()).forEach(signal -> doubt(signal, from));
      }
    }
    look();
    if (held.isEmpty() && sound == OutputPair.NOT_DUE) {
      doubtUntil(time);
    }
  }

  private void doubt(int signal, long from) {
    if (from < doubted[signal]) {
      doubted[signal] = from;
      doubts.add(new Doubt(from, signal));
    }
  }

  /** Looks what is waited for now, and lets go what need not wait any more. */
  private void look() {
    due = OutputPair.NOT_DUE;
    sound = OutputPair.NOT_DUE;
    for (OutputPair pair : compared) {
      due = Math.min(due, pair.due());
      sound = Math.min(sound, pair.sound());
    }
    while (!held.isEmpty() && held.time() <= sound) {
      held.pass(this::pass);
    }
  }

  private void pass(long time, int signal, long value, long line) {
    doubtUntil(time);
    if (time >= doubted[signal]) {
      judge.event(time, signal, UNKNOWN, line);
    } else {
      known[signal] = true;
      judge.event(time, signal, value, line);
    }
  }

  private void doubtUntil(long time) {
    while (!doubts.isEmpty() && doubts.peek().time() <= time) {
      Doubt doubt = doubts.poll();
      if (known[doubt.signal()]) {
        judge.event(doubt.time(), doubt.signal(), UNKNOWN, NO_LINE);
      }
    }
  }
}

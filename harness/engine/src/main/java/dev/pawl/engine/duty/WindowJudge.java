package dev.pawl.engine.duty;

import dev.pawl.engine.Finding.Kind;
import dev.pawl.engine.graph.BoolNode;
import dev.pawl.engine.graph.Kleene;
import dev.pawl.engine.graph.LongQueue;
import dev.pawl.engine.graph.Moments;
import dev.pawl.engine.operator.Recency;

/**
 * What the judges of a window after the trigger share: the obligations that wait for it to open, or to close. All windows of a rule have one length, so
 * they are in the order of their openings and of their deadlines.
 */
abstract class WindowJudge extends TriggeredJudge {

  static final int OWN = 1;

  final BoolNode required;
  final Window window;
  /** When the condition was last unknown; what else it was nobody asks. */
  final Recency recency = new Recency();
  private boolean wasUnknown = true;
  final LongQueue waiting;
  /** How many of those that wait, the oldest ones, have an open window. */
  int opened;

  WindowJudge(int rule, CaseFile cases, Conditions conditions, BoolNode required, Window window, String marginUnit) {
    super(rule, cases, marginUnit, conditions);
    this.required = required;
    this.window = window;
    this.waiting = new LongQueue(cases.recordWidth(OWN));
  }

  final void arise(long moment) {
    int place = waiting.add();
    waiting.set(place, 0, moment);
    cases.writeTrigger(waiting, place, OWN);
  }

  /** Takes note of the condition at a moment. */
  final void follow(int truth, long moment) {
    if (wasUnknown || Kleene.isUnknown(truth)) {
      recency.follow(truth, moment);
      wasUnknown = Kleene.isUnknown(truth);
    }
  }

  /** Opens the windows that open by a moment. */
  final void open(long moment) {
    while (opened < waiting.size() && opening(opened) <= moment) {
      opened++;
    }
  }

  final long opening(int place) {
    return Moments.later(waiting.get(place, 0), window.opens());
  }

  final long deadline(int place) {
    return Moments.later(opening(place), window.length());
  }

  /** From this moment on what comes is beyond doubt after the deadline. */
  final long lastMoment(int place) {
    return Moments.later(deadline(place), Math.max(window.slack() - 1, 0));
  }

  /** When the next window opens or closes. */
  final long nextWake() {
    long next = opened > 0 ? lastMoment(0) : Moments.FOREVER;
    return opened < waiting.size() ? Math.min(next, opening(opened)) : next;
  }

  /** Whether what comes at a moment is too near to the deadline of the oldest obligation to say which side of it it is on. */
  final boolean isNearDeadline(long moment) {
    return moment != opening(0) && Math.abs(deadline(0) - moment) < window.slack();
  }

  /** Decides the oldest obligation, and drops it. */
  final void decideOldest(Kind kind, int cause, long moment) {
    decide(kind, cause, waiting, 0, OWN, waiting.get(0, 0), moment, deadline(0));
    waiting.removeFirst();
  }

  @Override
  long cancelAll() {
    long cancelled = waiting.size();
    waiting.clear();
    opened = 0;
    return cancelled;
  }
}

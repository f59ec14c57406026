package dev.pawl.engine.judge;

import dev.pawl.engine.Finding.Kind;
import dev.pawl.engine.graph.BoolNode;
import dev.pawl.engine.graph.LongQueue;
import dev.pawl.engine.graph.Moments;
import dev.pawl.engine.operator.LastMoments;
import dev.pawl.grammar.rules.model.Truth;

/**
 * What the judges of a window after the trigger share: the obligations that wait for it to open, or to close. All
 * windows of a rule have one length, so they are in the order of their openings and of their deadlines.
 */
abstract class WindowJudge extends TriggeredJudge {

  private static final int TRIGGER = 0;
  /** Whether the trigger stood before anybody looked, so that the obligation counts only if no response comes. */
  private static final int STOOD = 1;
  /** Whether the condition may have been otherwise when the trigger happened. */
  private static final int CONTESTED = 2;
  /** Since when the condition had been what it was at the trigger. */
  private static final int SINCE = 3;
  static final int OWN = 4;

  final BoolNode required;
  final Window window;
  final LastMoments recency = new LastMoments();
  final LongQueue waiting;
  /** The obligation that its trigger's image decides, while that is done. */
  final LongQueue shown;
  /** How many of those that wait, the oldest ones, have a window that is surely open. */
  int opened;

  WindowJudge(int rule, CaseFile cases, Conditions conditions, BoolNode required, Window window, String marginUnit) {
    super(rule, cases, marginUnit, conditions);
    this.required = required;
    this.window = window;
    this.waiting = new LongQueue(cases.recordWidth(OWN));
    this.shown = new LongQueue(cases.recordWidth(OWN));
  }

  /** Has an obligation wait, if one arises. To be called first in {@link #update}. */
  final void awaitIfArises(long moment) {
    boolean arises = arises(moment);
    boolean isShown = required.value == deciding() && window.opens() == 0 && shows(required, window.order(), moment);
    if (arises && isShown) {
      cases.writeTrigger(shown, shown.add(), OWN);
      decideShown(moment);
      shown.removeFirst();
    } else if (arises || stands() && heedsStanding() && !isShown) {
      int place = waiting.add();
      waiting.set(place, TRIGGER, moment);
      waiting.set(place, STOOD, arises ? 0 : 1);
      waiting.set(place, CONTESTED, window.opens() == 0 && isContested(required, window.order(), moment) ? 1 : 0);
      waiting.set(place, SINCE, required.since());
      cases.writeTrigger(waiting, place, OWN);
    }
  }

  /** Whether a trigger that stood before anybody looked asks for anything. */
  boolean heedsStanding() {
    return false;
  }

  /** Whether the oldest obligation counts only if a response may not come. */
  final boolean oldestStood() {
    return waiting.get(0, STOOD) == 1;
  }

  /** Whether the condition may have been otherwise when the trigger of the oldest obligation happened. */
  final boolean oldestIsContested() {
    return waiting.get(0, CONTESTED) == 1;
  }

  /** Whether the condition had been what it was at the trigger of the oldest obligation before that already. */
  final boolean oldestWasSoBefore() {
    return waiting.get(0, SINCE) < waiting.get(0, TRIGGER) && !oldestIsContested();
  }

  /** Opens the windows that open by a moment. */
  final void open(long moment) {
    while (opened < waiting.size() && surelyOpens(opened) <= moment) {
      opened++;
    }
  }

  /** Closes the windows that close by a moment. */
  final void close(long moment) {
    while (opened > 0 && lastMoment(0) <= moment) {
      closeOldest(moment);
    }
  }

  /** What the condition has to be in the window to decide. */
  abstract int deciding();

  /** Decides the obligation that arises at a moment, in the image of which the condition becomes what decides. */
  abstract void decideShown(long moment);

  /** Judges those with open windows by what is so at a moment. */
  abstract void judgeOpened(long moment);

  /** The window of the oldest obligation has closed, and nothing came in it that decides. */
  abstract void closeOldest(long moment);

  /** The trace has ended before the window of the oldest obligation has closed. */
  void leaveOldestOpen(long last) {
    decideOldest(Kind.OPEN, 0, last);
  }

  @Override
  public void finish(long last) {
    finishPossible(last);
    recency.follow(required.value, last);
    open(window.opens() == 0 ? Moments.FOREVER : last);
    judgeOpened(last);
    while (!waiting.isEmpty() && Slack.closes(deadline(0), window.slack().shorter()) <= last) {
      closeOldest(last);
    }
    while (!waiting.isEmpty()) {
      leaveOldestOpen(last);
    }
  }

  final long opening(int place) {
    return Moments.later(waiting.get(place, TRIGGER), window.opens());
  }

  final long deadline(int place) {
    return deadlineOf(waiting.get(place, TRIGGER));
  }

  final long deadlineOf(long triggered) {
    return Moments.later(Moments.later(triggered, window.opens()), window.length());
  }

  /** From this moment on what is so may have been so in the window. */
  final long mayOpen(int place) {
    return Moments.later(waiting.get(place, TRIGGER), window.mayOpen());
  }

  private long surelyOpens(int place) {
    return Moments.later(waiting.get(place, TRIGGER), window.surelyOpens());
  }

  /** From this moment on what comes is beyond doubt after the deadline. */
  final long lastMoment(int place) {
    return Moments.later(waiting.get(place, TRIGGER), window.closes());
  }

  /** When the next window opens or closes. */
  final long nextWake() {
    long next = opened > 0 ? lastMoment(0) : Moments.FOREVER;
    return opened < waiting.size() ? Math.min(next, surelyOpens(opened)) : next;
  }

  /**
   * When that came to the oldest obligation which began to be so at a moment: at the opening where it was so before.
   */
  final long came(long began) {
    return Math.max(opening(0), began);
  }

  /**
   * Whether what began to be so at a moment, and is so now, is too near to the deadline of the oldest obligation to say
   * which side of it it is on.
   */
  final boolean isNearDeadline(long began) {
    return isNear(Math.max(began, waiting.get(0, TRIGGER)), deadline(0));
  }

  final boolean isNear(long came, long deadline) {
    return came > deadline - window.slack().longer();
  }

  /** Decides the oldest obligation, drops it, and says whether it was missed. */
  final boolean decideOldest(Kind kind, int cause, long moment) {
    boolean missed = decide(kind, cause, waiting, 0, OWN, waiting.get(0, TRIGGER), moment, deadline(0));
    waiting.removeFirst();
    return missed;
  }

  @Override
  void cancelBefore(long moment) {
    for (; !waiting.isEmpty() && waiting.get(0, TRIGGER) < moment; waiting.removeFirst()) {
      if (waiting.get(0, STOOD) == 0) {
        cancel(waiting, 0, OWN, waiting.get(0, TRIGGER));
      }
      opened = Math.max(opened - 1, 0);
    }
  }

  @Override
  void noteDoubts(long moment) {}

  /** The same of those in whose window the condition may have been, or was perhaps, what breaks them. */
  final void noteDoubts(int breaking, long moment) {
    for (int place = 0; place < waiting.size(); place++) {
      int cause = recency.causeBefore(mayOpen(place), moment);
      boolean broken = recency.lastBefore(breaking, moment) != Moments.NEVER
          && recency.lastBefore(breaking, moment) >= mayOpen(place);
      if (cause == Truth.U || cause == Truth.B || broken || waiting.get(place, CONTESTED) == 1) {
        doubt(waiting.get(place, TRIGGER), cause == Truth.U ? Truth.U : Truth.B);
      }
    }
  }
}

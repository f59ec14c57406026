package dev.pawl.engine.judge;

import dev.pawl.engine.graph.BoolNode;
import dev.pawl.engine.graph.LongQueue;
import dev.pawl.engine.graph.Moments;
import dev.pawl.grammar.rules.model.Truth;

/**
 * The stretches of time at any moment of which the trigger may have happened. Of the obligations that may have arisen
 * in a stretch only the ones are followed that are hardest to meet, so that a stretch takes one record, however long it
 * is. What is unknown counts here as what is worst.
 */
abstract class PossibleTriggers {

  private static final int FIRST = 0;
  private static final int LAST = 1;
  private static final int COUNTED = 2;
  /** Since when an obligation has waited for its response; {@link Moments#NEVER} where none does. */
  static final int WAITING = 3;
  /** What became of those that got it, as the form has it; {@link Moments#NEVER} for nothing that matters any more. */
  static final int ANSWERED = 4;
  /** When what it had to come before came first. */
  static final int LIMITED = 5;
  /**
   * Whether a response was not surely in time, while what it has to stay is not over; {@link Moments#NEVER} for not.
   */
  static final int LATE = 6;
  /** When one will be counted that is not met, unless it is cancelled before; {@link Moments#FOREVER} for none. */
  static final int DOOMED = 7;
  /** Whether one has fallen before its release, in which case a release that follows decides. */
  static final int FELL = 8;
  private static final int OWN = 9;

  private final TriggeredJudge judge;
  private final BoolNode[] minded;
  private final LongQueue stretches;

  /**
   * Those of a judge.
   *
   * @param minded what they are judged by
   */
  PossibleTriggers(TriggeredJudge judge, BoolNode... minded) {
    this.judge = judge;
    this.minded = minded;
    this.stretches = new LongQueue(judge.cases.recordWidth(OWN));
  }

  final boolean isEmpty() {
    return stretches.isEmpty();
  }

  /** Whatever may have arisen is cancelled. */
  final void clear() {
    stretches.clear();
  }

  /** The trigger may happen at this moment, and perhaps at the next ones too. */
  final void happen(long moment, boolean goesOn) {
    int newest = stretches.size() - 1;
    if (newest < 0 || stretches.get(newest, LAST) < moment - 1) {
      newest = stretches.add();
      stretches.set(newest, FIRST, moment);
      stretches.set(newest, COUNTED, 0);
      stretches.set(newest, WAITING, Moments.NEVER);
      stretches.set(newest, ANSWERED, Moments.NEVER);
      stretches.set(newest, LIMITED, Moments.NEVER);
      stretches.set(newest, LATE, Moments.NEVER);
      stretches.set(newest, DOOMED, Moments.FOREVER);
      stretches.set(newest, FELL, 0);
      judge.cases.writeTrigger(stretches, newest, OWN);
    }
    stretches.set(newest, LAST, goesOn ? Moments.FOREVER : moment);
  }

  /** The trigger does not possibly happen at this moment. */
  final void pause(long moment) {
    int newest = stretches.size() - 1;
    if (newest >= 0 && stretches.get(newest, LAST) == Moments.FOREVER) {
      stretches.set(newest, LAST, moment - 1);
    }
  }

  /** Judges the stretches at a moment, and counts each of which an obligation is not surely met. */
  final void judge(long moment) {
    if (stretches.isEmpty()) {
      return;
    }
    beginJudging(moment);
    for (int place = 0; place < stretches.size(); place++) {
      if (stretches.get(place, COUNTED) == 0
          && fails(stretches, place, stretches.get(place, FIRST), stretches.get(place, LAST), moment)) {
        count(place);
      }
    }
    endJudging();
    while (!stretches.isEmpty() && stretches.get(0, LAST) < moment && (stretches.get(0, COUNTED) == 1
        || isOver(stretches, stretches.get(0, LAST), moment))) {
      stretches.removeFirst();
    }
    for (BoolNode node : minded) {
      if (node.isMomentary() && node.value == Truth.T) {
        judge.comeBack();
      }
    }
  }

  /** When it has to judge again. */
  final long nextWake(long moment) {
    long next = Moments.FOREVER;
    for (int place = 0; place < stretches.size(); place++) {
      if (stretches.get(place, COUNTED) == 0) {
        next = Math.min(next, wake(stretches, place, stretches.get(place, FIRST), moment));
      }
    }
    return next;
  }

  final void finish(long last) {
    pause(last + 1);
    for (int place = 0; place < stretches.size(); place++) {
      if (stretches.get(place, COUNTED) == 0 && isOpen(stretches, place, stretches.get(place, LAST), last)) {
        count(place);
      }
    }
    stretches.clear();
  }

  private void count(int place) {
    stretches.set(place, COUNTED, 1);
    judge.tally.unknownTriggers++;
    judge.cases.tellPossible(stretches, place, OWN, stretches.get(place, FIRST));
  }

  /** Whether the moment has come to count one that is not met. */
  static boolean isDoomed(LongQueue all, int place, long moment) {
    return moment >= all.get(place, DOOMED);
  }

  static void doom(LongQueue all, int place, long moment) {
    all.set(place, DOOMED, Math.min(all.get(place, DOOMED), moment));
  }

  /** Whether a condition may have been otherwise when the trigger happened that possibly did so at a moment. */
  final boolean isContested(BoolNode condition, Order order, long moment) {
    return judge.isContested(condition, order, moment);
  }

  /** Whether an obligation of a stretch is not surely met, as far as this moment shows. */
  abstract boolean fails(LongQueue all, int place, long first, long last, long moment);

  /** The stretches are about to be judged at a moment. */
  void beginJudging(long moment) {}

  /** All stretches have been judged at a moment. */
  void endJudging() {}

  /** Whether nothing of the oldest stretch is left to judge. */
  abstract boolean isOver(LongQueue all, long last, long moment);

  abstract long wake(LongQueue all, int place, long first, long moment);

  /** Whether the end of the trace leaves an obligation of a stretch open. */
  abstract boolean isOpen(LongQueue all, int place, long last, long end);
}

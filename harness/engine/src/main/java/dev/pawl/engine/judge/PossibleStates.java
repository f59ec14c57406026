package dev.pawl.engine.judge;

import dev.pawl.engine.graph.BoolNode;
import dev.pawl.engine.graph.LongQueue;
import dev.pawl.engine.graph.Moments;
import dev.pawl.grammar.rules.model.Truth;

/**
 * Possible triggers of {@code must P throughout D}: P has to be true from where the first window may open to where the
 * last one surely closes.
 */
final class PossibleStates extends PossibleTriggers {

  private final BoolNode required;
  private final Window window;

  PossibleStates(TriggeredJudge judge, BoolNode required, Window window) {
    super(judge, required);
    this.required = required;
    this.window = window;
  }

  @Override
  boolean fails(LongQueue all, int place, long first, long last, long moment) {
    if (required.value != Truth.T && moment >= Moments.later(first, window.mayOpen())
        && moment <= Moments.later(last, window.closes())) {
      if (moment >= Moments.later(first, window.surelyOpens())) {
        return true;
      }
      doom(all, place, Moments.later(first, window.closes()));
    }
    if (moment <= last && window.opens() == 0 && isContested(required, window.order(), moment)) {
      doom(all, place, Moments.later(moment, window.closes()));
    }
    return isDoomed(all, place, moment);
  }

  @Override
  boolean isOver(LongQueue all, long last, long moment) {
    return all.get(0, DOOMED) == Moments.FOREVER && Moments.later(last, window.closes()) < moment;
  }

  @Override
  long wake(LongQueue all, int place, long first, long moment) {
    long mayOpen = Moments.later(first, window.mayOpen());
    long surelyOpens = Moments.later(first, window.surelyOpens());
    return moment < mayOpen ? mayOpen : moment < surelyOpens ? surelyOpens : all.get(place, DOOMED);
  }

  @Override
  boolean isOpen(LongQueue all, int place, long last, long end) {
    return all.get(place, DOOMED) != Moments.FOREVER || Slack.closes(Moments.later(last,
        Moments.later(window.opens(), window.length())), window.slack().shorter()) > end;
  }
}

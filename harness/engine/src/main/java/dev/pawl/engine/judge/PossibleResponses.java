package dev.pawl.engine.judge;

import dev.pawl.engine.graph.BoolNode;
import dev.pawl.engine.graph.LongQueue;
import dev.pawl.engine.graph.Moments;
import dev.pawl.grammar.rules.model.Truth;

/**
 * Possible triggers of the forms in which a condition has to be true at some moment of a window, and perhaps has to
 * stay so. Of the obligations that wait for one response the first has the least time; what has to stay so has to do it
 * up to where the last of them ends.
 */
final class PossibleResponses extends PossibleTriggers {

  private final BoolNode required;
  private final Window window;
  private final Stay stay;
  private final boolean atTrigger;
  private final BoolNode release;
  /** Less than this after a trigger what ends may have ended before it, in moments. */
  private final long soon;
  private boolean wasRequired;
  /** Since when it has been true, or was when it was so last. */
  private long began;
  /** When it was last true before that. */
  private long trueBefore = Moments.NEVER;
  private boolean wasReleased;
  private long releasedBefore = Moments.NEVER;
  /** Since when what ends it has been so, or was when it was so last. */
  private long releaseBegan = Moments.NEVER;

  /**
   * Those of a judge.
   *
   * @param stay what follows a response; null for nothing
   * @param atTrigger whether the response has to be so at the trigger itself
   */
  PossibleResponses(TriggeredJudge judge, BoolNode required, Window window, Stay stay, boolean atTrigger) {
    super(judge, stay == null || stay.release() == null ? new BoolNode[] {required}
        : new BoolNode[] {required, stay.release()});
    this.required = required;
    this.window = window.ofPossible();
    this.soon = window.opens() == 0 ? window.order().after() : 0;
    this.atTrigger = atTrigger;
    this.stay = stay;
    this.release = stay == null ? null : stay.release();
  }

  @Override
  void beginJudging(long moment) {
    if (required.value == Truth.T && !wasRequired) {
      began = moment;
    } else if (required.value != Truth.T && wasRequired) {
      trueBefore = moment - 1;
    }
    releasedBefore = wasReleased ? moment - 1 : releasedBefore;
    if (release != null && release.value == Truth.T && !wasReleased) {
      releaseBegan = moment;
    }
  }

  @Override
  void endJudging() {
    wasRequired = required.value == Truth.T;
    wasReleased = release != null && release.value == Truth.T;
  }

  @Override
  boolean fails(LongQueue all, int place, long first, long last, long moment) {
    boolean isRequired = required.value == Truth.T;
    if (!isRequired && wasRequired
        && Math.min(last, moment - 1) >= Math.max(Math.max(first, began), moment - soon + 1)) {
      return true;
    }
    long opens = Moments.later(first, window.surelyOpens());
    long closes = Moments.later(last, window.surelyOpens());
    boolean open = opens <= moment && moment <= closes;
    long waiting = all.get(place, WAITING);
    boolean answers = isRequired && (open || waiting != Moments.NEVER);
    long opening = waiting == Moments.NEVER ? moment : waiting;
    boolean fell = release != null ? fallsBeforeRelease(all, place, answers, opening, moment) : stay != null
        && fallsWithin(all, place, opens, closes, moment);
    boolean vague = answers && answer(all, place, opening, moment);
    if (isRequired) {
      all.set(place, WAITING, Moments.NEVER);
    } else if (waiting == Moments.NEVER && open) {
      all.set(place, WAITING, moment);
    }
    long stillWaiting = all.get(place, WAITING);
    return isDoomed(all, place, moment) || fell || vague || stillWaiting != Moments.NEVER
        && moment >= lastMoment(stillWaiting);
  }

  /**
   * The response has come. It may be too late for the first of those that get it, whose window has surely been open
   * since {@code opening}; then that one is counted when its stay is over, since it may be cancelled until then.
   *
   * @return whether it is not certain which response it got, or whether that was released at once
   */
  private boolean answer(LongQueue all, int place, long opening, long moment) {
    long first = opening - window.surelyOpens();
    long deadline = Moments.later(Moments.later(first, window.opens()), window.length());
    if (Math.max(began, first) > deadline - window.slack().longer() || atTrigger
        && isContested(required, window.order(), first)) {
      if (stay == null) {
        doom(all, place, moment);
      } else if (release != null && release.value == Truth.T) {
        doom(all, place, releasedAfter(opening) ? Slack.closes(releaseBegan, stay.slack()) : moment);
      } else if (release != null) {
        all.set(place, LATE, 0);
      } else {
        doom(all, place, stays(Math.max(began, Moments.later(first, window.opens()))));
      }
    }
    long mayOpen = mayOpen(opening);
    return stay != null && trueBefore >= mayOpen || release != null && release.value != Truth.T
        && releasedBefore >= Math.max(mayOpen, began);
  }

  /** Whether what ends the staying came after the response, of which it is not certain yet that it came. */
  private boolean releasedAfter(long opening) {
    return releaseBegan > Math.max(mayOpen(opening), began);
  }

  private long mayOpen(long opening) {
    return Moments.later(opening - window.surelyOpens(), window.mayOpen());
  }

  private boolean fallsBeforeRelease(LongQueue all, int place, boolean answers, long opening, long moment) {
    boolean isRequired = required.value == Truth.T;
    boolean staying = all.get(place, ANSWERED) != Moments.NEVER;
    boolean late = all.get(place, LATE) != Moments.NEVER;
    long released = all.get(place, LIMITED);
    if (released != Moments.NEVER && !isRequired && moment - released < stay.slack()
        || all.get(place, FELL) == 1 && release.value == Truth.T) {
      return true;
    }
    if (staying && release.value == Truth.T && !isRequired && stay.isScattered()) {
      return true;
    }
    if (staying && release.value == Truth.T) {
      boolean over = stay.slack() == 0 || !isRequired;
      all.set(place, LIMITED, over ? Moments.NEVER : moment);
      if (late) {
        doom(all, place, over ? moment : Slack.closes(moment, stay.slack()));
      }
    } else if (staying && !isRequired) {
      all.set(place, FELL, 1);
      doom(all, place, Slack.closes(moment, stay.slack()));
    }
    if (release.value == Truth.T || !isRequired) {
      all.set(place, ANSWERED, Moments.NEVER);
      all.set(place, LATE, Moments.NEVER);
    }
    if (answers && release.value != Truth.T) {
      all.set(place, ANSWERED, 0);
    } else if (answers && releasedAfter(opening)) {
      all.set(place, LIMITED, Math.max(all.get(place, LIMITED), releaseBegan));
    }
    return false;
  }

  /** What was answered is followed by the latest response that it can have got. */
  private boolean fallsWithin(LongQueue all, int place, long opens, long closes, long moment) {
    boolean isRequired = required.value == Truth.T;
    long answered = all.get(place, ANSWERED);
    if (isRequired && all.get(place, WAITING) != Moments.NEVER) {
      answered = Math.max(answered, moment);
    }
    long until = Math.min(isRequired ? moment : moment - 1, closes);
    if ((isRequired || wasRequired) && opens <= until && began <= until) {
      answered = Math.max(answered, came(until));
    }
    all.set(place, ANSWERED, answered);
    return !isRequired && answered != Moments.NEVER && moment <= stays(answered);
  }

  /** When the response came to the one whose window has surely been open since a moment at which it was true. */
  private long came(long opening) {
    return Math.max(began, opening - window.surelyOpens() + window.opens());
  }

  private long lastMoment(long opening) {
    return Moments.later(opening - window.surelyOpens(), window.closes());
  }

  private long stays(long answered) {
    return Slack.closes(Moments.later(answered, stay.span()), stay.slack());
  }

  @Override
  boolean isOver(LongQueue all, long last, long moment) {
    long answered = all.get(0, ANSWERED);
    long released = all.get(0, LIMITED);
    return Moments.later(last, Math.max(window.surelyOpens(), soon - 1)) < moment
        && all.get(0, WAITING) == Moments.NEVER && all.get(0, DOOMED) == Moments.FOREVER
        && (released == Moments.NEVER || moment - released >= stay.slack())
        && (answered == Moments.NEVER || release == null && stay != null && stays(answered) < moment);
  }

  @Override
  long wake(LongQueue all, int place, long first, long moment) {
    long opens = Moments.later(first, window.surelyOpens());
    if (opens > moment) {
      return opens;
    }
    long waiting = all.get(place, WAITING);
    return Math.min(all.get(place, DOOMED), waiting == Moments.NEVER ? Moments.FOREVER : lastMoment(waiting));
  }

  @Override
  boolean isOpen(LongQueue all, int place, long last, long end) {
    long closes = Moments.later(last, window.surelyOpens());
    if (closes > end || all.get(place, WAITING) != Moments.NEVER || all.get(place, DOOMED) != Moments.FOREVER
        || all.get(place, LATE) != Moments.NEVER) {
      return true;
    }
    if (stay == null || release != null) {
      return false;
    }
    long answered = all.get(place, ANSWERED);
    if (required.value == Truth.T) {
      answered = Math.max(answered, Moments.later(last, window.opens()));
    }
    return answered != Moments.NEVER && stays(answered) > end;
  }
}

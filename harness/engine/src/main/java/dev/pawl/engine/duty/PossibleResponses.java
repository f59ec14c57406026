package dev.pawl.engine.duty;

import dev.pawl.engine.graph.BoolNode;
import dev.pawl.engine.graph.LongQueue;
import dev.pawl.engine.graph.Moments;
import dev.pawl.grammar.rules.model.Truth;

/**
 * Possible triggers of the forms in which a condition has to be true at some moment of a window, and perhaps has to stay so. Of the obligations that
 * wait for one response the first has the least time; what has to stay so has to do it up to where the last of them ends.
 */
final class PossibleResponses extends PossibleTriggers {

  private final BoolNode required;
  private final Window window;
  private final Span span;
  private final BoolNode release;
  private boolean wasRequired;

  /**
   * How long it has to stay true after the response, in moments.
   *
   * @param slack twice the resolution in nanoseconds
   */
  record Span(long length, long slack) {}

  /**
   * Those of a judge.
   *
   * @param span null where it has to stay so for no stated time
   * @param release what ends its having to stay so; null for none
   */
  PossibleResponses(TriggeredJudge judge, BoolNode required, Window window, Span span, BoolNode release) {
    super(judge, release == null ? new BoolNode[] {required} : new BoolNode[] {required, release});
    this.required = required;
    this.window = window;
    this.span = span;
    this.release = release;
  }

  @Override
  boolean fails(LongQueue all, int place, long first, long last, long moment) {
    boolean isRequired = required.value == Truth.T;
    long opens = Moments.later(first, window.opens());
    long closes = Moments.later(last, window.opens());
    boolean open = opens <= moment && moment <= closes;
    long waiting = all.get(place, WAITING);
    boolean late = isRequired && waiting != Moments.NEVER && moment > latest(waiting);
    boolean answers = isRequired && (open || waiting != Moments.NEVER);
    boolean fell = release != null ? fallsBeforeRelease(all, place, answers) : span != null && fallsWithin(all, place, opens, closes, moment);
    if (isRequired) {
      all.set(place, WAITING, Moments.NEVER);
    } else if (waiting == Moments.NEVER && open) {
      all.set(place, WAITING, moment);
    }
    if (late && all.get(place, LATE) == Moments.NEVER) {
      all.set(place, LATE, moment);
    }
    long stillWaiting = all.get(place, WAITING);
    return isLate(all, place, moment) || fell || stillWaiting != Moments.NEVER && moment >= lastMoment(stillWaiting);
  }

  /** Whether a response was not surely in time and its stay is over: until then it may be cancelled. */
  private boolean isLate(LongQueue all, int place, long moment) {
    long late = all.get(place, LATE);
    if (late == Moments.NEVER) {
      return false;
    }
    return release != null ? release.value == Truth.T : span == null || moment >= Moments.later(late, span.length());
  }

  private boolean fallsBeforeRelease(LongQueue all, int place, boolean answers) {
    boolean staying = all.get(place, ANSWERED) != Moments.NEVER;
    if (release.value == Truth.T) {
      all.set(place, ANSWERED, Moments.NEVER);
      return false;
    }
    if (answers) {
      all.set(place, ANSWERED, 0);
    }
    return staying && required.value != Truth.T;
  }

  private boolean fallsWithin(LongQueue all, int place, long opens, long closes, long moment) {
    boolean isRequired = required.value == Truth.T;
    long answered = all.get(place, ANSWERED);
    if (isRequired && all.get(place, WAITING) != Moments.NEVER) {
      answered = Math.max(answered, moment);
    }
    long until = isRequired ? moment : moment - 1;
    if ((isRequired || wasRequired) && opens <= until) {
      answered = Math.max(answered, Math.min(until, closes));
    }
    all.set(place, ANSWERED, answered);
    return !isRequired && answered != Moments.NEVER && moment <= stays(answered);
  }

  /** The last moment at which a response is surely in time that was not there when its window opened. */
  private long latest(long opening) {
    return Moments.later(opening, window.length()) - window.slack();
  }

  private long lastMoment(long opening) {
    return Moments.later(Moments.later(opening, window.length()), Math.max(window.slack() - 1, 0));
  }

  private long stays(long answered) {
    return Moments.later(Moments.later(answered, span.length()), Math.max(span.slack() - 1, 0));
  }

  @Override
  void hasJudged() {
    wasRequired = required.value == Truth.T;
  }

  @Override
  boolean isOver(LongQueue all, long last, long moment) {
    long answered = all.get(0, ANSWERED);
    return Moments.later(last, window.opens()) < moment && all.get(0, WAITING) == Moments.NEVER
        && all.get(0, LATE) == Moments.NEVER && (answered == Moments.NEVER || span != null && stays(answered) < moment);
  }

  @Override
  long wake(LongQueue all, int place, long first, long moment) {
    long opens = Moments.later(first, window.opens());
    if (opens > moment) {
      return opens;
    }
    long late = all.get(place, LATE);
    long stayed = late == Moments.NEVER || span == null ? Moments.FOREVER : Moments.later(late, span.length());
    long waiting = all.get(place, WAITING);
    return Math.min(stayed, waiting == Moments.NEVER ? Moments.FOREVER : lastMoment(waiting));
  }

  @Override
  boolean isOpen(LongQueue all, int place, long last, long end) {
    long closes = Moments.later(last, window.opens());
    if (closes > end || all.get(place, WAITING) != Moments.NEVER || all.get(place, LATE) != Moments.NEVER) {
      return true;
    }
    if (span == null) {
      return false;
    }
    long answered = required.value == Truth.T ? Math.max(all.get(place, ANSWERED), closes) : all.get(place, ANSWERED);
    return answered != Moments.NEVER && Moments.later(answered, span.length()) > end;
  }
}

package dev.pawl.engine.judge;

import dev.pawl.engine.Finding.Kind;
import dev.pawl.engine.graph.Begun;
import dev.pawl.engine.graph.BoolNode;
import dev.pawl.engine.graph.Event;
import dev.pawl.engine.graph.Kleene;
import dev.pawl.engine.graph.LongQueue;
import dev.pawl.engine.graph.Moments;
import dev.pawl.engine.graph.Node;
import dev.pawl.engine.graph.SignalState;
import dev.pawl.engine.operator.EventTest;
import dev.pawl.engine.operator.LastMoments;
import dev.pawl.grammar.rules.model.Truth;
import java.util.Arrays;

/**
 * The part that all {@code when} rules share: trigger, {@code while}, {@code unless}, and how an obligation's end is
 * counted.
 */
public abstract class TriggeredJudge extends Judge {

  private static final Kind[] KINDS = Kind.values();
  /** When a missed obligation that is held is released at the latest. */
  private static final int RELEASED = 0;
  private static final int KIND = 1;
  private static final int TRIGGERED = 2;
  private static final int TIME = 3;
  private static final int DEADLINE = 4;
  private static final int DECIDED = 5;
  private static final int OWN_HELD = 6;

  private final Conditions conditions;
  private final EventTest trigger;
  private final LastMoments cancelling = new LastMoments();
  /** What matters only while there is an obligation to judge, the node left out that is needed for the trigger. */
  private Node[] watched = {};
  private boolean watching = true;
  private boolean stands;
  /** When it stood. */
  private long stoodAt = Moments.NEVER;
  private boolean mindsFallingBack;
  private PossibleTriggers possible;
  /** The moment that is being judged. */
  private long now;
  private boolean ended;
  private final Ceasing ofWhilst;
  private final Ceasing ofState;
  /**
   * When the trigger happened while that was false, so lately that it may become true soon enough to have been so
   * before.
   */
  private final LongQueue refused;
  /** The same while {@code unless} was true. */
  private final LongQueue spared;
  /** When {@code unless} became true, where what it cancels may have been missed before. */
  private final Sparing sparing;
  /** Obligations that may have been missed before {@code unless} came: their triggers, and by what unknown. */
  private final LongQueue doubts = new LongQueue(2);
  /** Cancelled obligations of which it is not certain yet that {@code unless} was so after the trigger. */
  private final LongQueue uncertain;
  /** Missed obligations of which it is not certain yet that they arose, and that {@code unless} did not come before. */
  private final LongQueue held;

  /**
   * What raises obligations.
   *
   * @param event each happening raises one
   * @param state what the event is about, where it may not have been so; else null
   * @param soon it may not have been if it ceases less than this after the event, in moments
   */
  public record Trigger(Event event, BoolNode state, long soon) {}

  /**
   * When obligations arise, and what cancels them.
   *
   * @param trigger what raises them
   * @param whilst it counts only while this is true; null for always
   * @param unless this cancels it; null for nothing
   * @param begun before it has, an obligation counts only if it is missed, and what may have happened does not
   * @param looksBack whether not even what is missed counts before that, since it may rest on what was not seen
   * @param ofWhilst how near the trigger the order of {@code whilst} is open
   * @param ofUnless the same of {@code unless}
   * @param sparing how near to what breaks an obligation the order of {@code unless} is open
   * @param lag how long after what breaks it an obligation is decided at most, in moments
   */
  public record Conditions(Trigger trigger, BoolNode whilst, BoolNode unless, Begun begun, boolean looksBack,
      Order ofWhilst, Order ofUnless, Sparing.Nearness sparing, long lag) {}

  TriggeredJudge(int rule, CaseFile cases, String marginUnit, Conditions conditions) {
    super(rule, cases, marginUnit);
    this.conditions = conditions;
    this.trigger = new EventTest(conditions.trigger.event, this);
    this.ofWhilst = new Ceasing(conditions.whilst == null ? 0 : conditions.ofWhilst.after());
    this.ofState = new Ceasing(conditions.trigger.soon);
    this.refused = new LongQueue(cases.recordWidth(1));
    this.spared = new LongQueue(cases.recordWidth(1));
    this.sparing = new Sparing(conditions.sparing, conditions.lag);
    this.uncertain = new LongQueue(cases.recordWidth(1));
    this.held = new LongQueue(cases.recordWidth(OWN_HELD));
  }

  /** How possible triggers are judged; called once. */
  final void judgePossible(PossibleTriggers triggers) {
    possible = triggers;
  }

  /** Drops the obligations from before a moment that are not decided, each by {@link #cancel}. */
  abstract void cancelBefore(long moment);

  /**
   * Says by {@link #doubt} of which obligations it is not certain that they were not missed before a moment, which has
   * not been followed yet.
   */
  abstract void noteDoubts(long moment);

  @Override
  protected void connect() {
    dependOn(conditions.trigger.event);
    dependOnRise(conditions.begun);
    if (conditions.trigger.state != null) {
      watch(conditions.trigger.state, true);
    }
    if (conditions.whilst != null) {
      watch(conditions.whilst, true);
    }
    if (conditions.unless != null) {
      watch(conditions.unless, conditions.ofUnless.after() > 0 || conditions.sparing.doubt().brief() > 0);
    }
  }

  /**
   * Makes changes of a node judge anew, as long as the judge is not idle.
   *
   * @param mindful whether the falling back of a momentary node matters too
   */
  final void watch(Node node, boolean mindful) {
    if (mindful) {
      dependOn(node);
      mindsFallingBack |= node instanceof BoolNode flag && flag.isMomentary();
    } else {
      dependOnRise(node);
    }
    if (node != conditions.trigger.event.source() || conditions.trigger.event.isTurn()) {
      watched = Arrays.copyOf(watched, watched.length + 1);
      watched[watched.length - 1] = node;
    }
  }

  /** The same of the signals behind a condition that time may make known, since a change contests it after that. */
  final void watchBehind(Order order) {
    for (SignalState signal : order.signals()) {
      if (order.before() > 0 && signal.node != null) {
        watch(signal.node, false);
      }
    }
  }

  /**
   * Goes on or stops watching. An idle judge, with nothing to judge until the trigger happens again, costs nothing: all
   * that it has to know of what it did not watch is its value when an obligation arises.
   */
  final void watchWhile(boolean busy) {
    if (busy != watching) {
      watching = busy;
      for (Node node : watched) {
        heed(node, busy);
      }
      if (busy && mindsFallingBack) {
        comeBack();
      } else if (!busy) {
        ofWhilst.clear();
        ofState.clear();
      }
    }
  }

  /**
   * Cancels what is to be cancelled and says whether an obligation arises now. To be called first in {@link #update}.
   */
  final boolean arises(long moment) {
    now = moment;
    trigger.follow(moment);
    boolean cancelled = conditions.unless != null && cancels(moment);
    followState(moment);
    releaseHeld();
    int whilst = whilst(moment);
    followPossible(whilst, cancelled, moment);
    followAside(whilst, cancelled, moment);
    stands = trigger.stands() && whilst == Truth.T && !cancelled && !conditions.looksBack;
    if (stands) {
      stoodAt = moment;
      ofState.arise(moment);
    }
    if (trigger.happens() && whilst == Truth.T && !(conditions.looksBack && isEarly(moment))) {
      tally.cancelled += cancelled && !isEarly(moment) ? 1 : 0;
      if (!cancelled) {
        ofWhilst.arise(moment);
        ofState.arise(moment);
      }
      return !cancelled;
    }
    return false;
  }

  /**
   * Sees what becomes of {@code while} and {@code unless} so soon after the trigger that it may have come before it.
   */
  private void followAside(int whilst, boolean cancelled, long moment) {
    boolean happens = trigger.happens() && conditions.begun.value == Truth.T;
    long after = conditions.ofWhilst.after();
    if (conditions.whilst != null && after > 0) {
      int now = conditions.whilst.value;
      boolean wavers = conditions.whilst.wavered() == moment;
      if (now == Truth.F || now == Truth.U || wavers) {
        ofWhilst.cease(moment);
      }
      if (cancelled) {
        refused.clear();
      }
      turns(refused, after, now == Truth.T || now == Truth.U || wavers, happens && whilst == Truth.F && !cancelled,
          moment);
    }
    if (conditions.unless != null && conditions.ofUnless.after() > 0) {
      int now = conditions.unless.value;
      turns(spared, conditions.ofUnless.after(), now == Truth.F || now == Truth.U
          || conditions.unless.wavered() == moment, happens && whilst == Truth.T
          && cancelled, moment);
    }
  }

  /**
   * Counts the triggers that a condition kept from mattering, if it turns soon after them; {@code kept} says that it
   * keeps one now.
   */
  private void turns(LongQueue triggers, long after, boolean turned, boolean kept, long moment) {
    while (!triggers.isEmpty() && triggers.get(0, 0) <= moment - after) {
      triggers.removeFirst();
    }
    for (; turned && !triggers.isEmpty(); triggers.removeFirst()) {
      tally.unknownTriggers++;
      cases.tellPossible(triggers, 0, 1, triggers.get(0, 0));
    }
    if (kept) {
      int place = triggers.add();
      triggers.set(place, 0, moment);
      cases.writeTrigger(triggers, place, 1);
    }
  }

  private void followState(long moment) {
    BoolNode state = conditions.trigger.state;
    if (state != null && (state.value == Truth.F || state.value == Truth.U)) {
      ofState.cease(moment);
    }
  }

  /** Whether the trigger may not have happened, since what it is about was not surely so for long enough after it. */
  private boolean mayNotHaveHappened(long triggered) {
    return ofState.hasCeased(triggered) || ended && triggered + ofState.soon() - 1 > now;
  }

  private int whilst(long moment) {
    if (conditions.whilst == null) {
      return Truth.T;
    }
    boolean contested = trigger.happens() && !Kleene.isUnknown(conditions.whilst.value)
        && isContested(conditions.whilst, conditions.ofWhilst, moment);
    return contested ? Truth.B : conditions.whilst.value;
  }

  /** Whether a condition may have been otherwise when the trigger happened that is seen now. */
  final boolean isContested(BoolNode condition, Order order, long moment) {
    return order.contests(condition, conditions.begun, moment);
  }

  /** Whether a condition is for certain, when the trigger happens, what it becomes at a moment. */
  final boolean shows(BoolNode condition, Order order, long moment) {
    return order.shows(condition, conditions.begun, moment);
  }

  /** Whether the trigger stood at the moment last asked of, having happened before anybody looked. */
  final boolean stands() {
    return stands;
  }

  @Override
  final boolean hasBegunBefore(long moment) {
    return conditions.begun.at() < moment;
  }

  /** Whether an obligation is out of the running: it arose before the rule began, or is cancelled or nearly so. */
  final boolean isAside(long triggered) {
    return isEarly(triggered) || sparing.since(triggered) != Moments.NEVER;
  }

  /** Whether an obligation arose before the rule began: then it counts only if it is missed. */
  final boolean isEarly(long triggered) {
    return triggered < conditions.begun.at();
  }

  /**
   * Drops the obligations from before a moment of a queue, with the moment of the trigger in field 0 and its events
   * from field {@code own} on.
   */
  final void drop(LongQueue queue, int own, long moment) {
    for (; !queue.isEmpty() && queue.get(0, 0) < moment; queue.removeFirst()) {
      cancel(queue, 0, own, queue.get(0, 0));
    }
  }

  /** Counts an obligation as cancelled, or as undecided if it may have been missed before that. */
  final void cancel(LongQueue queue, int place, int own, long triggered) {
    if (isEarly(triggered) || triggered == stoodAt) {
      return;
    }
    for (int doubted = 0; doubted < doubts.size(); doubted++) {
      if (doubts.get(doubted, 0) == triggered) {
        Kind kind = doubts.get(doubted, 1) == Truth.U ? Kind.UNKNOWN : Kind.BORDERLINE;
        long rise = sparing.since(triggered);
        count(kind);
        cases.tell(kind, queue, place, own, triggered, rise, rise);
        return;
      }
    }
    int newest = uncertain.add();
    uncertain.set(newest, 0, triggered);
    cases.copyTrigger(queue, place, own, uncertain, newest, 1);
    releaseCancelled();
  }

  /** Counts the cancelled obligations of which it is certain that they are, or that they may not be. */
  private void releaseCancelled() {
    for (int left = uncertain.size(); left > 0; left--) {
      long triggered = uncertain.get(0, 0);
      boolean certain = sparing.certain(triggered) <= now + 1;
      if (sparing.mayNotCancel(triggered) || ended && !certain) {
        long rise = sparing.since(triggered);
        count(Kind.BORDERLINE);
        cases.tell(Kind.BORDERLINE, uncertain, 0, 1, triggered, rise, rise);
      } else if (certain) {
        tally.cancelled++;
      } else {
        int last = uncertain.add();
        uncertain.set(last, 0, triggered);
        cases.copyTrigger(uncertain, 0, 1, uncertain, last, 1);
      }
      uncertain.removeFirst();
    }
  }

  /** An obligation may have been missed, by an unknown of a cause. */
  final void doubt(long triggered, int cause) {
    if (!sparing.sparedJustNow(triggered)) {
      return;
    }
    int place = doubts.add();
    doubts.set(place, 0, triggered);
    doubts.set(place, 1, cause);
  }

  /** Counts an obligation as already so. */
  final void countAlreadySo(LongQueue queue, int place, int own, long triggered) {
    if (sparing.since(triggered) != Moments.NEVER) {
      cancel(queue, place, own, triggered);
    } else {
      tally.alreadySo += isEarly(triggered) ? 0 : 1;
    }
  }

  /** Whether an unknown {@code unless} leaves an obligation undecided. */
  private boolean isDoubted(long triggered) {
    return conditions.unless != null && cancelling.unknownSince(triggered);
  }

  private void followPossible(int whilst, boolean cancelled, long moment) {
    boolean unclear = trigger.isUnclear();
    boolean happens = unclear || trigger.happens() && Kleene.isUnknown(whilst);
    if (happens && whilst != Truth.F && !cancelled && conditions.begun.value == Truth.T) {
      possible.happen(moment, unclear);
    } else {
      possible.pause(moment);
    }
    if (unclear && cancelled && conditions.unless.isMomentary()) {
      comeBack();
    }
  }

  /**
   * Judges what may have arisen, and says when to do it again, or to see what {@code unless} has come to. To be called
   * last in {@link #update}.
   */
  final long judgePossible(long moment) {
    long next = held.isEmpty() ? sparing.nextWake() : Math.min(sparing.nextWake(), held.get(0, RELEASED));
    if (possible.isEmpty()) {
      return next;
    }
    possible.judge(moment);
    return Math.min(next, possible.nextWake(moment));
  }

  /** Whether something may have arisen that is not decided, or may arise any time. */
  final boolean mayHaveArisen() {
    return trigger.isUnclear() || !possible.isEmpty() || !refused.isEmpty() || !spared.isEmpty()
        || !sparing.isEmpty() || !held.isEmpty();
  }

  final void finishPossible(long last) {
    possible.finish(last);
    now = last;
    ended = true;
    releaseHeld();
    releaseCancelled();
  }

  /** What cancels, borderline where it may have been otherwise when the trigger happened. */
  private int unless(long moment) {
    boolean contested = trigger.happens() && !Kleene.isUnknown(conditions.unless.value)
        && isContested(conditions.unless, conditions.ofUnless, moment);
    if (contested) {
      comeBack();
    }
    return contested ? Truth.B : conditions.unless.value;
  }

  private boolean cancels(long moment) {
    int unless = unless(moment);
    cancelling.follow(unless, moment);
    boolean isTrue = unless == Truth.T;
    if (sparing.follow(conditions.unless, isTrue, moment)) {
      noteDoubts(moment);
    }
    releaseCancelled();
    for (long over = sparing.over(moment); over != Moments.NEVER; over = sparing.over(moment)) {
      cancelBefore(over);
      sparing.forgetOldest();
      while (!doubts.isEmpty() && doubts.get(0, 0) < over) {
        doubts.removeFirst();
      }
    }
    if (isTrue && sparing.isExact()) {
      // What is not cancelled any more, but not decided either, is in doubt.
      cancelling.mark(Truth.B, moment);
    }
    if (isTrue) {
      possible.clear();
    }
    return isTrue;
  }

  /**
   * Counts an obligation as decided and tells of it unless it was met.
   *
   * @param kind null for met
   * @param cause U or B for one undecided by unknowns, else anything
   * @param queue the queue with the trigger's events from field {@code own} of the record at {@code place} on
   * @return whether it was missed, as far as is known
   */
  final boolean decide(Kind kind, int cause, LongQueue queue, int place, int own, long triggered, long time,
      long deadline) {
    if (sparing.cancels(kind, triggered, whenMissed(kind, triggered, time, deadline))) {
      cancel(queue, place, own, triggered);
      return false;
    }
    Kind told = kind;
    int why = cause;
    if (kind != Kind.OPEN && isDoubted(triggered)) {
      boolean mixed = kind == Kind.UNKNOWN && cause == Truth.U;
      why = mixed ? Truth.U : cancelling.cause(triggered);
      told = Kind.UNKNOWN;
    }
    if (isMissed(told) && (ofWhilst.hasCeased(triggered) || sparing.mayCancel(triggered, time))) {
      told = Kind.BORDERLINE;
    }
    if (told == Kind.UNKNOWN && why == Truth.B) {
      told = Kind.BORDERLINE;
    }
    boolean missed = isMissed(told);
    if (missed && mayNotHaveHappened(triggered)) {
      told = Kind.BORDERLINE;
    }
    if (isMissed(told) && surelyMissed(triggered, time) > now && !ended) {
      hold(told, queue, place, own, triggered, time, deadline);
      return true;
    }
    if ((isEarly(triggered) || told == null && triggered == stoodAt) && !isMissed(told)) {
      return missed;
    }
    if (told == null) {
      countMet(triggered);
      return false;
    }
    count(told);
    if (queue == null) {
      cases.tellAtTrigger(told, triggered, time);
    } else if (cases.tell(told, queue, place, own, triggered, time, deadline)) {
      toldOf(told, triggered, deadline, now);
    }
    return missed;
  }

  /** When an obligation that ends so was missed, if it was; null for one that was met. */
  private long whenMissed(Kind kind, long triggered, long time, long deadline) {
    return isMissed(kind) ? time : kind == Kind.OPEN ? deadline
        : kind != null && deadline > triggered ? Math.min(now, deadline) : now;
  }

  /** The moment at which it is certain that a missed obligation was one, and was missed before {@code unless} came. */
  private long surelyMissed(long triggered, long time) {
    return Math.max(conditions.unless == null ? time : sparing.surelyAfter(time), triggered + ofState.soon());
  }

  private void hold(Kind kind, LongQueue queue, int place, int own, long triggered, long time, long deadline) {
    int newest = held.add();
    held.set(newest, RELEASED, surelyMissed(triggered, time));
    held.set(newest, KIND, kind.ordinal());
    held.set(newest, TRIGGERED, triggered);
    held.set(newest, TIME, time);
    held.set(newest, DEADLINE, deadline);
    held.set(newest, DECIDED, now);
    if (queue == null) {
      cases.writeTrigger(held, newest, OWN_HELD);
    } else {
      cases.copyTrigger(queue, place, own, held, newest, OWN_HELD);
    }
  }

  /** Counts the missed obligations that are certain now, or are certain to stay borderline. */
  private void releaseHeld() {
    for (; !held.isEmpty(); held.removeFirst()) {
      long triggered = held.get(0, TRIGGERED);
      boolean near = mayNotHaveHappened(triggered) || sparing.mayCancel(triggered, held.get(0, TIME));
      if (!near && !ended && held.get(0, RELEASED) > now) {
        return;
      }
      Kind kind = near ? Kind.BORDERLINE : KINDS[(int) held.get(0, KIND)];
      if (!near || !isEarly(triggered)) {
        count(kind);
        if (cases.tell(kind, held, 0, OWN_HELD, triggered, held.get(0, TIME), held.get(0, DEADLINE))) {
          toldOf(kind, triggered, held.get(0, DEADLINE), held.get(0, DECIDED));
        }
      }
    }
  }

  /** A finding of the kind, decided at a moment, has been told; for judges that have more to say of it later. */
  void toldOf(Kind kind, long triggered, long deadline, long decided) {}

  private void count(Kind kind) {
    switch (kind) {
      case BORDERLINE -> tally.borderline++;
      case UNKNOWN -> tally.unknown++;
      case OPEN -> tally.open++;
      case NOT_AT_TRIGGER, NO_RESPONSE, NOT_SUSTAINED, NOT_THROUGHOUT, OUT_OF_ORDER, FALSE_STATE -> tally.missed++;
      case UNKNOWN_TRIGGER -> throw new AssertionError("no obligation arose");
    }
  }

  private static boolean isMissed(Kind kind) {
    return kind != null && switch (kind) {
      case NOT_AT_TRIGGER, NO_RESPONSE, NOT_SUSTAINED, NOT_THROUGHOUT, OUT_OF_ORDER, FALSE_STATE -> true;
      case BORDERLINE, UNKNOWN, OPEN, UNKNOWN_TRIGGER -> false;
    };
  }
}

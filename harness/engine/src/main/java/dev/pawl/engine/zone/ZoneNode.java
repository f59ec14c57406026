package dev.pawl.engine.zone;

import dev.pawl.engine.Evidence;
import dev.pawl.engine.Evidence.Moment;
import dev.pawl.engine.FindingListener;
import dev.pawl.engine.TrackingFinding;
import dev.pawl.engine.TrackingFinding.Kind;
import dev.pawl.engine.ZoneListener;
import dev.pawl.engine.ZoneOutcome;
import dev.pawl.engine.graph.BoolNode;
import dev.pawl.engine.graph.Event;
import dev.pawl.engine.graph.Moments;
import dev.pawl.engine.graph.Node;
import dev.pawl.engine.zone.ZoneEnd.Step;
import dev.pawl.grammar.rules.model.Zone;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.OptionalLong;

/** A zone's count. The view nodes read it; it counts as changed at every moment at which a flag did something. */
public final class ZoneNode extends Node {

  private final Zone zone;
  private final ZoneEnd entry;
  private final ZoneEnd exit;
  /** Null where no number is stated for the start. */
  private final Opening opening;
  private final FindingListener listener;
  private final int findingsToTell;
  private final TrainCount count;
  private Node[] views = {};
  private CountListener[] listeners = {};
  /** Null where nobody wants to be told of each count. */
  private ZoneListener follower;
  private boolean full;
  private boolean empty;
  /** When it last ceased to be full, and when it did the time before. */
  private long fullUntil = Moments.NEVER;
  private long fullUntilBefore = Moments.NEVER;
  private long emptyUntil = Moments.NEVER;
  private long entered;
  private long left;
  private long findings;
  private long enteredAt = Moments.NEVER;
  private long leftAt = Moments.NEVER;
  private long backedOutAt = Moments.NEVER;
  private long miscountedAt = Moments.NEVER;
  private long doubtfulAt = Moments.NEVER;
  private boolean isHidden;
  private boolean hasOpened;

  /**
   * A zone's count.
   *
   * @param opening whether the number stated for the start counts; null where none is stated
   * @param findingsToTell how many findings to tell the listener; more are only counted
   */
  public ZoneNode(Zone zone, ZoneEnd entry, ZoneEnd exit, Opening opening, FindingListener listener,
      int findingsToTell) {
    this.zone = zone;
    this.entry = entry;
    this.exit = exit;
    this.opening = opening;
    this.listener = listener;
    this.findingsToTell = findingsToTell;
    this.count = new TrainCount(zone.holds());
  }

  @Override
  protected void connect() {
    entry.connect(this);
    exit.connect(this);
    if (opening != null) {
      dependOnRise(opening);
    }
  }

  /** Has the zone counted when the event happens. */
  void follow(Event event) {
    dependOn(event);
  }

  /** Has the zone counted when the flag changes. */
  void follow(BoolNode flag) {
    dependOn(flag);
  }

  void addView(Node view) {
    views = Arrays.copyOf(views, views.length + 1);
    views[views.length - 1] = view;
  }

  /** Has a listener told of the count. */
  public void tell(CountListener told) {
    listeners = Arrays.copyOf(listeners, listeners.length + 1);
    listeners[listeners.length - 1] = told;
  }

  /** Has a listener told of each count. */
  public void tell(ZoneListener told) {
    follower = told;
  }

  @Override
  public boolean update(long moment) {
    boolean wasHidden = isHidden;
    boolean counts = count(moment);
    boolean opens = open();
    followBounds(moment);
    if (follower != null && entry.hasBegun(moment) && exit.hasBegun(moment)) {
      follower.counted(Moments.nanoseconds(moment), zone.index(), count.least(), count.most());
    }
    if (opens || counts || wasHidden || isHidden) {
      for (Node view : views) {
        if (view.update(moment)) {
          graph.markDependents(view);
        }
      }
    }
    return false;
  }

  private void followBounds(long moment) {
    boolean wasFull = full;
    boolean wasEmpty = empty;
    full = count.least() >= zone.holds();
    empty = count.most() == 0;
    if (wasFull && !full) {
      fullUntilBefore = fullUntil;
      fullUntil = moment;
      for (CountListener told : listeners) {
        told.ceasesToBeFull();
      }
    }
    if (wasEmpty && !empty) {
      emptyUntil = moment;
      for (CountListener told : listeners) {
        told.ceasesToBeEmpty();
      }
    }
  }

  /** The number stated for the start counts from now on. */
  private boolean open() {
    boolean opens = !hasOpened && opening != null && opening.counts();
    if (opens) {
      hasOpened = true;
      count.start(zone.startsWith().getAsInt());
    }
    return opens;
  }

  /** Whether anything was counted, or might have been. */
  private boolean count(long moment) {
    Step atEntry = entry.follow(moment);
    Step atExit = exit.follow(moment);
    isHidden = entry.isHidden() || exit.isHidden();
    boolean maybe = entry.mayCount() || exit.mayCount();
    if (atEntry == Step.NOTHING && atExit == Step.NOTHING && !maybe) {
      return false;
    }
    count.loosen();
    if (entry.mayCount()) {
      count.possiblyIn();
    }
    if (exit.mayCount()) {
      count.possiblyOut();
    }
    note(atEntry, atExit, moment);
    int in = (atEntry == Step.IN ? 1 : 0) + (atExit == Step.IN ? 1 : 0);
    int out = (atEntry == Step.OUT ? 1 : 0) + (atExit == Step.OUT ? 1 : 0);
    entered += in;
    left += out;
    for (int net = in - out; net > 0; net--) {
      if (!count.in()) {
        found(Kind.OVERFILLED, moment);
      }
    }
    for (int net = out - in; net > 0; net--) {
      if (!count.out()) {
        found(Kind.LEFT_EMPTY, moment);
      }
    }
    count.settle();
    doubtfulAt = count.isDoubtful() ? moment : doubtfulAt;
    disturb(atEntry, moment);
    disturb(atExit, moment);
    return true;
  }

  private void note(Step atEntry, Step atExit, long moment) {
    if (atEntry == Step.IN || atExit == Step.IN) {
      enteredAt = moment;
    }
    if (atEntry == Step.OUT) {
      backedOutAt = moment;
    }
    if (atExit == Step.OUT) {
      leftAt = moment;
    }
    if (atEntry != Step.NOTHING || entry.isHidden()) {
      entry.lastCounted.take(moment);
    }
    if (atExit != Step.NOTHING || exit.isHidden()) {
      exit.lastCounted.take(moment);
    }
  }

  private void disturb(Step step, long moment) {
    if (step == Step.IMPOSSIBLE) {
      found(Kind.IMPOSSIBLE_ORDER, moment);
    }
    if (step == Step.IMPOSSIBLE || step == Step.LOST) {
      count.forget();
    }
  }

  private void found(Kind kind, long moment) {
    miscountedAt = moment;
    for (CountListener told : listeners) {
      told.isFoundWrong(kind, moment);
    }
    if (findings++ < findingsToTell) {
      List<Evidence> evidence = new ArrayList<>();
      evidence(Moment.BREAK, evidence);
      listener.tracking(new TrackingFinding(zone.index(), kind, Moments.nanoseconds(moment), since(kind, moment),
          evidence));
    }
  }

  /**
   * From when on a count that is found wrong may have been so. One too low was right while the zone was full, unless
   * one train too many was let in just then: so it is asked for the time before the last. One too high was right while
   * the zone was empty.
   */
  private OptionalLong since(Kind kind, long moment) {
    long since = switch (kind) {
      case LEFT_EMPTY -> fullUntilBefore;
      case OVERFILLED -> emptyUntil;
      case IMPOSSIBLE_ORDER -> moment;
    };
    return since == Moments.NEVER ? OptionalLong.empty() : OptionalLong.of(Moments.nanoseconds(since));
  }

  /** Adds the events that the last counts at both ends rest on. */
  public void evidence(Moment moment, List<Evidence> evidence) {
    entry.lastCounted.show(moment, evidence);
    exit.lastCounted.show(moment, evidence);
  }

  /** What has been counted so far. */
  public ZoneOutcome outcome() {
    return new ZoneOutcome(zone.index(), entered, left, findings, count.least(), count.most(), start());
  }

  private ZoneOutcome.Start start() {
    return opening == null ? ZoneOutcome.Start.NOT_STATED : hasOpened ? ZoneOutcome.Start.AS_STATED
        : ZoneOutcome.Start.DOUBTFUL;
  }

  int least() {
    return count.least();
  }

  int most() {
    return count.most();
  }

  /** Whether trains can be counted in at the entry only. */
  boolean entersAtOneEnd() {
    return !exit.isBothWays();
  }

  /** Whether an event of the zone happens at the moment being evaluated. */
  boolean happens(ZoneViews.Event event, long moment) {
    return moment == switch (event) {
      case ENTERS -> enteredAt;
      case LEAVES -> leftAt;
      case BACKS_OUT -> backedOutAt;
      case MISCOUNTS -> miscountedAt;
    };
  }

  /** Whether, for as long as the flags stay as they are, it may happen without being seen. */
  boolean hides(ZoneViews.Event event) {
    return switch (event) {
      case ENTERS -> entry.isHidden() || exit.isBothWays() && exit.isHidden();
      case LEAVES -> exit.isHidden();
      case BACKS_OUT -> entry.isBothWays() && entry.isHidden();
      case MISCOUNTS -> isHidden;
    };
  }

  /**
   * Whether a train was counted at the moment being evaluated into a zone that may have been full, or out of one that
   * may have been empty.
   */
  boolean mayMiscount(long moment) {
    return doubtfulAt == moment;
  }
}

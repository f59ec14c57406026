package dev.pawl.engine.zone;

import dev.pawl.engine.Evidence;
import dev.pawl.engine.Evidence.Moment;
import dev.pawl.engine.FindingListener;
import dev.pawl.engine.TrackingFinding;
import dev.pawl.engine.TrackingFinding.Kind;
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

/** A zone's count. The view nodes read it; it counts as changed at every moment at which a flag did something. */
public final class ZoneNode extends Node {

  private final Zone zone;
  private final ZoneEnd entry;
  private final ZoneEnd exit;
  private final FindingListener listener;
  private final int findingsToTell;
  private final TrainCount count;
  private Node[] views = {};
  private long entered;
  private long left;
  private long findings;
  private long enteredAt = Moments.NEVER;
  private long leftAt = Moments.NEVER;
  private long backedOutAt = Moments.NEVER;
  private long miscountedAt = Moments.NEVER;

  /**
   * A zone's count.
   *
   * @param findingsToTell how many findings to tell the listener; more are only counted
   */
  public ZoneNode(Zone zone, ZoneEnd entry, ZoneEnd exit, FindingListener listener, int findingsToTell) {
    this.zone = zone;
    this.entry = entry;
    this.exit = exit;
    this.listener = listener;
    this.findingsToTell = findingsToTell;
    this.count = new TrainCount(zone.holds(), zone.startsWith().orElse(0), zone.startsWith().orElse(zone.holds()));
  }

  @Override
  protected void connect() {
    entry.connect(this);
    exit.connect(this);
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

  @Override
  public boolean update(long moment) {
    if (count(moment)) {
      for (Node view : views) {
        if (view.update(moment)) {
          graph.markDependents(view);
        }
      }
    }
    return false;
  }

  /** Whether anything was counted, or might have been. */
  private boolean count(long moment) {
    Step atEntry = entry.follow(moment);
    Step atExit = exit.follow(moment);
    if (atEntry == Step.NOTHING && atExit == Step.NOTHING) {
      return false;
    }
    count.loosen();
    possible(atEntry);
    possible(atExit);
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
    disturb(atEntry, moment);
    disturb(atExit, moment);
    return true;
  }

  private void possible(Step step) {
    if (step == Step.POSSIBLY_IN) {
      count.possiblyIn();
    } else if (step == Step.POSSIBLY_OUT) {
      count.possiblyOut();
    }
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
    if (atEntry != Step.NOTHING) {
      entry.lastCounted.take(moment);
    }
    if (atExit != Step.NOTHING) {
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
    if (findings++ < findingsToTell) {
      List<Evidence> evidence = new ArrayList<>();
      evidence(Moment.BREAK, evidence);
      listener.tracking(new TrackingFinding(zone.index(), kind, Moments.nanoseconds(moment), evidence));
    }
  }

  /** Adds the events that the last counts at both ends rest on. */
  public void evidence(Moment moment, List<Evidence> evidence) {
    entry.lastCounted.show(moment, evidence);
    exit.lastCounted.show(moment, evidence);
  }

  /** What has been counted so far. */
  public ZoneOutcome outcome() {
    return new ZoneOutcome(zone.index(), entered, left, findings, count.least(), count.most());
  }

  int least() {
    return count.least();
  }

  int most() {
    return count.most();
  }

  /** Whether trains can be counted in at the entry only. */
  boolean entersAtOneEnd() {
    return zone.exit() instanceof Zone.Edge;
  }

  boolean entersAt(long moment) {
    return enteredAt == moment;
  }

  boolean leavesAt(long moment) {
    return leftAt == moment;
  }

  boolean backsOutAt(long moment) {
    return backedOutAt == moment;
  }

  boolean miscountsAt(long moment) {
    return miscountedAt == moment;
  }
}

package dev.pawl.engine.operator;

import dev.pawl.engine.graph.Event;
import dev.pawl.engine.graph.LaggingNumber;
import dev.pawl.engine.graph.LongQueue;
import dev.pawl.engine.graph.Moments;
import dev.pawl.engine.graph.NumNode;

/** How often an event happened. */
public final class Counts {

  private Counts() {}

  /** {@code count(e) in last D}. */
  public static final class InLast extends LaggingNumber {
    private final Event event;
    private final long span;
    private final LateBeginning late;
    private final EventTest happening;
    private final LongQueue happenings = new LongQueue(1);

    public InLast(Event event, long duration, LateBeginning late) {
      super(true);
      this.late = late;
      this.event = event;
      this.happening = new EventTest(event, this);
      this.span = Moments.span(duration);
    }

    @Override
    protected void connect() {
      dependOn(event);
      late.begun().ifPresent(this::dependOnRise);
    }

    @Override
    public boolean update(long moment) {
      happening.follow(moment);
      if (late.isAt(moment, graph.start())) {
        happening.wasUnclear(moment - 1);
      }
      if (happening.happens()) {
        happenings.set(happenings.add(), 0, moment);
      }
      while (!happenings.isEmpty() && Moments.later(happenings.get(0, 0), span) < moment) {
        happenings.removeFirst();
      }
      long lastUnclear = happening.lastUnclear();
      boolean unknown = lastUnclear != Moments.NEVER && Moments.later(lastUnclear, span) >= moment;
      long next = happenings.isEmpty() ? Moments.FOREVER : Moments.later(happenings.get(0, 0), span + 1);
      long known = happening.isUnclear() ? Moments.FOREVER : Moments.later(lastUnclear, span + 1);
      return unknown ? become(Double.NaN, known) : become(happenings.size(), next);
    }
  }

  /** {@code count(e) since q}. */
  public static final class Since extends NumNode {
    private final Event event;
    private final Event anchor;
    private final LateBeginning late;
    private final EventTest events;
    private final EventTest anchors;
    private boolean certain;
    private long count;

    public Since(Event event, Event anchor, LateBeginning late) {
      this.late = late;
      this.event = event;
      this.anchor = anchor;
      this.events = new EventTest(event, this);
      this.anchors = new EventTest(anchor, this);
    }

    @Override
    protected void connect() {
      dependOn(event);
      dependOn(anchor);
      late.begun().ifPresent(this::dependOnRise);
    }

    @Override
    public boolean update(long moment) {
      events.follow(moment);
      anchors.follow(moment);
      certain &= !late.isAt(moment, graph.start());
      if (anchors.happens()) {
        certain = true;
        count = 0;
      }
      if (anchors.isUnclear() || events.isUnclear()) {
        certain = false;
      }
      if (events.happens()) {
        count++;
      }
      return become(certain ? count : Double.NaN);
    }
  }
}

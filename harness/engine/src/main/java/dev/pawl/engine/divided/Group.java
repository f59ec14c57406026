package dev.pawl.engine.divided;

import dev.pawl.engine.handover.Batch;
import dev.pawl.engine.part.Part;
import java.util.ArrayDeque;

/** Rules that are evaluated together, and the events that are on their way to them. */
final class Group {

  private final Part part;
  private final Crew crew;
  private Batch filling;

  /** Full batches, the oldest first. The crew's, as is the next. */
  final ArrayDeque<Batch> full = new ArrayDeque<>();

  /** Whether the group is lined up for, or in the hands of, a thread. */
  boolean taken;

  Group(Part part, Crew crew) {
    this.part = part;
    this.crew = crew;
    filling = crew.newBatch();
  }

  Part part() {
    return part;
  }

  /** Takes an event on its way. */
  void bring(long time, int signal, long value, long line) {
    filling.event(time, signal, value, line);
    if (filling.isFull()) {
      send();
    }
  }

  /** Has all that was brought judged, now or later. */
  void send() {
    filling = crew.exchange(this, filling);
  }
}

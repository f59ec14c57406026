package dev.pawl.engine.divided;

import dev.pawl.engine.EventSink;
import dev.pawl.engine.handover.Batch;

/** Some events of a trace on their way to the groups, and for each group the places of those that concern it. */
final class Block {

  private final Batch events;
  private final Places[] concerning;

  /** How many groups have not judged it yet. The crew's to guard. */
  int pending;

  /** Places in the batch, in order. */
  private static final class Places {
    final int[] at;
    int count;

    Places(int most) {
      at = new int[most];
    }
  }

  Block(int size, int groups) {
    events = new Batch(size);
    concerning = new Places[groups];
    for (int group = 0; group < groups; group++) {
      concerning[group] = new Places(size);
    }
  }

  boolean isFull() {
    return events.isFull();
  }

  /** Adds an event that concerns some groups. */
  void event(long time, int signal, long value, long line, int[] groups) {
    int place = events.event(time, signal, value, line);
    for (int group : groups) {
      Places places = concerning[group];
      places.at[places.count++] = place;
    }
  }

  /** Brings to a sink the events that concern a group. */
  void play(int group, EventSink sink) {
    Places places = concerning[group];
    int[] at = places.at;
    for (int i = 0, count = places.count; i < count; i++) {
      events.play(at[i], sink);
    }
  }

  void clear() {
    events.clear();
    for (Places places : concerning) {
      places.count = 0;
    }
  }
}

package dev.pawl.engine.divided;

import dev.pawl.engine.EventSink;
import dev.pawl.engine.handover.Batch;
import java.util.stream.IntStream;
import java.util.stream.Stream;

/** Some events of a trace on their way to the groups, and for each group the places of those that concern it. */
final class Block {

  private final Batch events;
  private final Places[] concerning;
  /** By signal: the places of those that its events concern. */
  private final Places[][] heardBy;

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

  /**
   * A block.
   *
   * @param size how many events it holds
   * @param concerned by signal: the groups that its events concern
   */
  Block(int size, int groups, int[][] concerned) {
    events = new Batch(size);
    concerning = Stream.generate(() -> new Places(size)).limit(groups).toArray(Places[]::new);
    heardBy = Stream.of(concerned).map(signal -> IntStream.of(signal).mapToObj(group -> concerning[group]).toArray(Places[]::new))
        .toArray(Places[][]::new);
  }

  boolean isFull() {
    return events.isFull();
  }

  /** Adds an event, unless it concerns nobody. */
  void event(long time, int signal, long value, long line) {
    Places[] heard = heardBy[signal];
    if (heard.length > 0) {
      int place = events.event(time, signal, value, line);
      for (Places places : heard) {
        places.at[places.count++] = place;
      }
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

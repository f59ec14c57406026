package dev.pawl.engine.groups;

import dev.pawl.engine.Batch;
import dev.pawl.engine.EventSink;
import java.util.stream.IntStream;
import java.util.stream.Stream;

/** Some events of a trace on their way to the groups, in a batch for each group; most events concern one or two. */
final class Block {

  private final Batch[] batches;
  /** By signal: the batches of the groups that its events concern. */
  private final Batch[][] heardBy;
  private boolean full;

  /** How many groups have not judged it yet. The crew's to guard. */
  int pending;

  /**
   * A block.
   *
   * @param size how many events it holds for each group
   * @param concerned by signal: the groups that its events concern
   */
  Block(int size, int groups, int[][] concerned) {
    batches = Stream.generate(() -> new Batch(size)).limit(groups).toArray(Batch[]::new);
    heardBy = Stream.of(concerned).map(signal -> IntStream.of(signal).mapToObj(group -> batches[group])
        .toArray(Batch[]::new))
        .toArray(Batch[][]::new);
  }

  /** Whether there is no room for a further event that concerns all. */
  boolean isFull() {
    return full;
  }

  /** Adds an event for those that it concerns, if any. To be called only while the block is not full. */
  void event(long time, int signal, long value, long line) {
    for (Batch batch : heardBy[signal]) {
      batch.event(time, signal, value, line);
      full |= batch.isFull();
    }
  }

  /** Brings to a sink the events that concern a group. */
  void play(int group, EventSink sink) {
    batches[group].play(sink);
  }

  void clear() {
    full = false;
    for (Batch batch : batches) {
      batch.clear();
    }
  }
}

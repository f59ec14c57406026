package dev.pawl.engine.divided;

import dev.pawl.engine.handover.Batch;
import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.List;
import java.util.function.BooleanSupplier;

/**
 * The threads that judge batches: the one that brings the events, and as many others as are wanted. A group is in the hands of one thread at a
 * time, and its batches are judged in their order. While others judge, the bringing thread goes on bringing; when it is so far ahead that no empty
 * batch is left, it judges too. Without others it judges each batch as soon as it is full.
 */
final class Crew {

  /** Batches on their way for each of the other threads. */
  private static final int SPARE = 16;

  private final int batchSize;
  private final List<Thread> others = new ArrayList<>();
  private final ArrayDeque<Batch> empty = new ArrayDeque<>();
  /** Groups that have full batches and are in nobody's hands. */
  private final ArrayDeque<Group> waiting = new ArrayDeque<>();
  private int underWay;
  private boolean ended;
  private Throwable failure;

  /**
   * A crew at work.
   *
   * @param threads how many threads judge, the bringing one among them
   */
  Crew(int threads, int batchSize) {
    this.batchSize = batchSize;
    for (int thread = 1; thread < threads; thread++) {
      for (int batch = 0; batch < SPARE; batch++) {
        empty.add(newBatch());
      }
      Thread other = new Thread(this::work, "pawl-judge");
      other.setDaemon(true);
      others.add(other);
    }
    others.forEach(Thread::start);
  }

  Batch newBatch() {
    return new Batch(batchSize);
  }

  /**
   * Has a batch judged, now or later, and gives an empty one for it. For the bringing thread.
   *
   * @throws RuntimeException what has gone wrong in judging, on whichever thread
   */
  Batch exchange(Group group, Batch full) {
    if (others.isEmpty()) {
      full.play(group.part());
      full.clear();
      return full;
    }
    handIn(group, full);
    helpUntil(() -> !empty.isEmpty());
    return takeEmpty();
  }

  /** Waits until all is judged, and ends the other threads. For the bringing thread. */
  void finish() {
    helpUntil(() -> underWay == 0);
    end();
  }

  /** Ends the other threads, wherever they are. */
  void abandon() {
    end();
    others.forEach(Thread::interrupt);
  }

  private synchronized void handIn(Group group, Batch full) {
    underWay++;
    group.full.add(full);
    if (!group.taken) {
      lineUp(group);
    }
  }

  private void lineUp(Group group) {
    group.taken = true;
    waiting.add(group);
    notifyAll();
  }

  private synchronized Batch takeEmpty() {
    return empty.remove();
  }

  private synchronized void end() {
    ended = true;
    notifyAll();
  }

  private void helpUntil(BooleanSupplier done) {
    try {
      judgeUntil(done);
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
      throw new IllegalStateException("interrupted while rules were being judged", e);
    }
    rethrow();
  }

  private void work() {
    try {
      judgeUntil(() -> ended);
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
    }
  }

  private void judgeUntil(BooleanSupplier done) throws InterruptedException {
    for (Group group = takeUnless(done); group != null; group = takeUnless(done)) {
      judge(group);
    }
  }

  /** Waits for a group with a full batch, and takes it in hand; null as soon as what is asked for is so. */
  private synchronized Group takeUnless(BooleanSupplier done) throws InterruptedException {
    while (!done.getAsBoolean() && waiting.isEmpty()) {
      wait();
    }
    return done.getAsBoolean() ? null : waiting.remove();
  }

  private void judge(Group group) {
    Batch batch = firstOf(group);
    try {
      batch.play(group.part());
    } catch (RuntimeException | Error e) {
      fail(e);
    }
    batch.clear();
    putBack(group, batch);
  }

  /** After a failure nothing is judged any more; batches still come back, so that nobody waits for ever. */
  private synchronized Batch firstOf(Group group) {
    Batch batch = group.full.remove();
    if (failure != null) {
      batch.clear();
    }
    return batch;
  }

  private synchronized void fail(Throwable thrown) {
    failure = failure == null ? thrown : failure;
  }

  private synchronized void putBack(Group group, Batch batch) {
    underWay--;
    empty.add(batch);
    group.taken = false;
    if (!group.full.isEmpty()) {
      lineUp(group);
    }
    notifyAll();
  }

  private synchronized void rethrow() {
    if (failure instanceof RuntimeException thrown) {
      throw thrown;
    } else if (failure instanceof Error thrown) {
      throw thrown;
    }
  }
}

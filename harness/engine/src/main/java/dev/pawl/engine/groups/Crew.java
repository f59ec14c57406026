package dev.pawl.engine.groups;

import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.List;
import java.util.function.BooleanSupplier;

/**
 * The threads that judge blocks: the one that brings the events, and as many others as are wanted. A group is in the
 * hands of one thread at a time, and judges the blocks in their order. While others judge, the bringing thread goes on
 * bringing; when it is so far ahead that no empty block is left, it judges too. Without others it judges each block as
 * soon as it is full.
 */
final class Crew {

  /** Blocks on their way for each of the other threads. */
  private static final int SPARE = 4;

  private final List<Group> groups;
  private final List<Thread> others = new ArrayList<>();
  private final ArrayDeque<Block> empty = new ArrayDeque<>();
  /** Groups that have full blocks and are in nobody's hands. */
  private final ArrayDeque<Group> waiting = new ArrayDeque<>();
  private int underWay;
  private boolean ended;
  private Throwable failure;

  /**
   * A crew at work.
   *
   * @param threads how many threads judge, the bringing one among them
   * @param blockSize how many events a block holds for each group
   * @param concerned by signal: the groups that its events concern
   */
  Crew(List<Group> groups, int threads, int blockSize, int[][] concerned) {
    this.groups = groups;
    empty.add(new Block(blockSize, groups.size(), concerned));
    for (int thread = 1; thread < threads; thread++) {
      for (int block = 0; block < SPARE; block++) {
        empty.add(new Block(blockSize, groups.size(), concerned));
      }
      Thread other = new Thread(this::work, "pawl-judge");
      other.setDaemon(true);
      others.add(other);
    }
    others.forEach(Thread::start);
  }

  /** A first block to fill. For the bringing thread. */
  synchronized Block takeEmpty() {
    return empty.remove();
  }

  /**
   * Has a block judged, now or later, and gives an empty one for it. For the bringing thread.
   *
   * @throws RuntimeException what has gone wrong in judging, on whichever thread; from then on at every call
   */
  Block exchange(Block full) {
    if (others.isEmpty()) {
      groups.forEach(group -> judge(group, full));
      full.clear();
      rethrow();
      return full;
    }
    handIn(full);
    helpUntil(() -> !empty.isEmpty());
    return takeEmpty();
  }

  /** Waits until all is judged, and ends the other threads. For the bringing thread. */
  void finish() {
    helpUntil(() -> underWay == 0);
    end();
  }

  private synchronized void handIn(Block full) {
    underWay++;
    full.pending = groups.size();
    for (Group group : groups) {
      group.blocks.add(full);
      if (!group.taken) {
        lineUp(group);
      }
    }
  }

  private void lineUp(Group group) {
    group.taken = true;
    waiting.add(group);
    notifyAll();
  }

  /** Has the other threads end as soon as they have judged what they have in hand. */
  synchronized void end() {
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
      Block block = firstOf(group);
      judge(group, block);
      putBack(group, block);
    }
  }

  /** Waits for a group with a full block, and takes it in hand; null as soon as what is asked for is so. */
  private synchronized Group takeUnless(BooleanSupplier done) throws InterruptedException {
    while (!done.getAsBoolean() && waiting.isEmpty()) {
      wait();
    }
    return done.getAsBoolean() ? null : waiting.remove();
  }

  private synchronized Block firstOf(Group group) {
    return group.blocks.remove();
  }

  /** What goes wrong is kept for the bringing thread; the others go on, so that nobody waits for a block for ever. */
  private void judge(Group group, Block block) {
    try {
      group.judge(block);
    } catch (RuntimeException | Error e) {
      fail(e);
    }
  }

  private synchronized void fail(Throwable thrown) {
    failure = failure == null ? thrown : failure;
  }

  private synchronized void putBack(Group group, Block block) {
    group.taken = false;
    if (!group.blocks.isEmpty()) {
      lineUp(group);
    }
    if (--block.pending == 0) {
      block.clear();
      empty.add(block);
      underWay--;
      notifyAll();
    }
  }

  private synchronized void rethrow() {
    if (failure instanceof RuntimeException thrown) {
      throw thrown;
    } else if (failure instanceof Error thrown) {
      throw thrown;
    }
  }
}

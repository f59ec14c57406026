package dev.pawl.engine.divided;

import dev.pawl.engine.RuleEngine;
import java.util.concurrent.ArrayBlockingQueue;
import java.util.concurrent.BlockingQueue;

/** A share of the rules with an engine and a thread of its own, which takes blocks of events in the order in which they are handed over. */
final class Share {

  /** Blocks that are under way at the most; whoever brings events waits for a free one. */
  private static final int BLOCKS = 6;

  private final RuleEngine engine;
  private final BlockingQueue<EventBlock> full = new ArrayBlockingQueue<>(BLOCKS + 1);
  private final BlockingQueue<EventBlock> free = new ArrayBlockingQueue<>(BLOCKS);
  private final EventBlock last = new EventBlock(1);
  private final Thread thread;
  private EventBlock filling;
  private RuntimeException failure;

  Share(RuleEngine engine, int blockSize) {
    this.engine = engine;
    for (int i = 0; i < BLOCKS; i++) {
      free.add(new EventBlock(blockSize));
    }
    thread = new Thread(this::work, "pawl-judge");
    thread.setDaemon(true);
    thread.start();
  }

  boolean needs(int signal) {
    return engine.needs(signal);
  }

  void event(long time, int signal, long value, long line) {
    block().add(time, signal, value, line);
  }

  void advanceTo(long time) {
    block().addTime(time);
  }

  private EventBlock block() {
    if (filling != null && filling.isFull()) {
      full.add(filling);
      filling = null;
    }
    if (filling == null) {
      filling = take(free);
    }
    return filling;
  }

  /** Waits until all events have been judged, and gives the engine back. */
  RuleEngine join() {
    if (filling != null) {
      full.add(filling);
    }
    full.add(last);
    try {
      thread.join();
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
      throw new IllegalStateException("interrupted while rules were being judged", e);
    }
    if (failure != null) {
      throw failure;
    }
    return engine;
  }

  /** Ends the thread, wherever it is. */
  void abandon() {
    thread.interrupt();
  }

  /** After a failure blocks are still taken, so that whoever brings them does not wait for ever; the failure is told at the end. */
  private void work() {
    try {
      for (EventBlock block = full.take(); block != last; block = full.take()) {
        judge(block);
        free.add(block);
      }
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
    }
  }

  private void judge(EventBlock block) {
    if (failure != null) {
      block.clear();
      return;
    }
    try {
      block.drainTo(engine);
    } catch (RuntimeException e) {
      failure = e;
      block.clear();
    }
  }

  private static EventBlock take(BlockingQueue<EventBlock> blocks) {
    try {
      return blocks.take();
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
      throw new IllegalStateException("interrupted while rules were being judged", e);
    }
  }
}

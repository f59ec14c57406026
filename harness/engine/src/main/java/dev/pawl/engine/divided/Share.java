package dev.pawl.engine.divided;

import dev.pawl.engine.EventSink;
import dev.pawl.engine.RuleEngine;
import dev.pawl.engine.handover.HandOver;

/** A share of the rules with an engine and a thread of its own, which takes events in the order in which they are handed over. */
final class Share {

  private static final EventSink NOWHERE = new EventSink() {
    @Override
    public void event(long time, int signal, long value, long line) {}

    @Override
    public void advanceTo(long time) {}
  };

  private final RuleEngine engine;
  private final HandOver events;
  private final Thread thread;
  private RuntimeException failure;

  Share(RuleEngine engine, int blockSize) {
    this.engine = engine;
    this.events = new HandOver(blockSize);
    thread = new Thread(this::work, "pawl-judge");
    thread.setDaemon(true);
    thread.start();
  }

  boolean needs(int signal) {
    return engine.needs(signal);
  }

  /** Takes events on their way to the engine. */
  EventSink events() {
    return events;
  }

  /** Waits until all events have been judged, and gives the engine back. */
  RuleEngine join() {
    events.end();
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

  private void work() {
    try {
      judge();
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
    }
  }

  /** After a failure events are still taken, so that whoever brings them does not wait for ever; the failure is told at the end. */
  private void judge() throws InterruptedException {
    try {
      events.playAll(engine);
    } catch (RuntimeException e) {
      failure = e;
      events.playAll(NOWHERE);
    }
  }
}

package dev.pawl.engine;

import dev.pawl.grammar.rules.model.RuleBook;

/** The evaluator of one rule book over one trace. Not thread-safe; one engine judges one trace. */
public final class RuleEngine implements EventSink {

  public RuleEngine(RuleBook book, EngineOptions options, FindingListener listener) {}

  @Override
  public void event(long time, int signal, long value, long line) {}

  @Override
  public void advanceTo(long time) {}

  /**
   * Ends the trace at its last event.
   *
   * @return what the trace says about every rule
   */
  public TraceOutcome finish() {
    throw new UnsupportedOperationException();
  }

  /**
   * Ends the trace at a stated time.
   *
   * @param end nanoseconds, not before the last event
   */
  public TraceOutcome finish(long end) {
    throw new UnsupportedOperationException();
  }
}

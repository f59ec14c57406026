package dev.pawl.engine;

import dev.pawl.engine.evaluation.Arrivals;
import dev.pawl.engine.evaluation.Evaluation;
import dev.pawl.engine.plan.Selection;
import dev.pawl.grammar.rules.model.RuleBook;
import dev.pawl.grammar.rules.model.Zone;
import java.util.List;

/**
 * The evaluator of one rule book over one trace: all rules follow every event at once. Not thread-safe; one engine
 * judges one trace.
 *
 * <p>An event that changes nothing costs a comparison.
 */
public final class RuleEngine implements EventSink {

  private final Arrivals arrivals;
  private final Evaluation part;

  public RuleEngine(RuleBook book, EngineOptions options, FindingListener listener) {
    this(book, Selection.all(book), options, listener);
  }

  private RuleEngine(RuleBook book, Selection selection, EngineOptions options, FindingListener listener) {
    arrivals = new Arrivals(book.signals().size());
    part = new Evaluation(book, selection, options, listener);
  }

  /** An engine that judges nothing and only counts these zones, as one that judges does. */
  public static RuleEngine counting(RuleBook book, List<Zone> zones, ZoneListener listener) {
    RuleEngine engine = new RuleEngine(book, new Selection(List.of(), zones), EngineOptions.DEFAULT,
        FindingListener.NONE);
    engine.part.tellCounts(listener);
    return engine;
  }

  /**
   * Whether any rule or zone rests on a signal. Events of others change nothing and need not be brought, as long as
   * {@link #advanceTo} tells the time of the trace's first event before any other.
   */
  public boolean needs(int signal) {
    return part.needs(signal);
  }

  @Override
  public void event(long time, int signal, long value, long line) {
    if (arrivals.take(time, signal, value)) {
      part.event(time, signal, value, line);
    } else {
      part.advanceTo(time);
    }
  }

  @Override
  public void advanceTo(long time) {
    arrivals.moveTo(time);
    part.advanceTo(time);
  }

  /**
   * Ends the trace at the last time it was told of.
   *
   * @return what the trace says about every rule; nothing arose in a trace without any instant
   */
  public TraceOutcome finish() {
    return finish(arrivals.now());
  }

  /**
   * Ends the trace at a stated time.
   *
   * @param end nanoseconds, not before the last event
   */
  public TraceOutcome finish(long end) {
    if (arrivals.haveBegun()) {
      arrivals.moveTo(end);
      part.finish(end);
    }
    return soFar();
  }

  /** What the trace says up to now, for a look at a live feed; obligations that still wait are not counted. */
  public TraceOutcome soFar() {
    return arrivals.outcome(List.of(part));
  }
}

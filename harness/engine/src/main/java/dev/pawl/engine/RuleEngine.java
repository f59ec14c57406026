package dev.pawl.engine;

import dev.pawl.engine.duty.Judge;
import dev.pawl.engine.graph.Graph;
import dev.pawl.engine.graph.Moments;
import dev.pawl.engine.graph.Node;
import dev.pawl.engine.graph.SignalTable;
import dev.pawl.engine.operator.Inputs;
import dev.pawl.engine.plan.Plan;
import dev.pawl.engine.zone.ZoneNode;
import dev.pawl.grammar.rules.model.RuleBook;
import java.util.ArrayList;
import java.util.List;

/**
 * The evaluator of one rule book over one trace. Not thread-safe; one engine judges one trace.
 *
 * <p>The present instant is left open until a later event, {@link #advanceTo} or {@link #finish} closes it, since more events may bear its time.
 * Closing it evaluates what its events have marked; then the timers that are due before the next instant fire, each at its own time. An
 * event that changes nothing costs a comparison.
 */
public final class RuleEngine implements EventSink {

  /** Times must lie within this many nanoseconds of the epoch, some 73 years either way for a trace that starts at 0. */
  private static final long TIME_LIMIT = Long.MAX_VALUE / 4;

  private final Graph graph;
  private final SignalTable signals;
  private final long[] value;
  private final long[] seenAt;
  private final Node[] nodes;
  private final List<Judge> judges;
  private final ZoneNode[] zones;
  private final List<Inputs.TraceEnd> ends;
  private boolean started;
  private long start;
  private long now;
  private long events;
  private long overwritten;

  public RuleEngine(RuleBook book, EngineOptions options, FindingListener listener) {
    Plan plan = new Plan(book, options, listener);
    graph = plan.graph();
    signals = plan.signals();
    value = signals.value;
    seenAt = signals.seenAt;
    nodes = plan.signalNodes();
    judges = plan.judges();
    zones = plan.zones();
    ends = plan.ends();
  }

  /**
   * Whether any rule or zone rests on a signal. Events of others change nothing and need not be brought, as long as {@link #advanceTo} tells the
   * time of the trace's first event before any other.
   */
  public boolean needs(int signal) {
    return nodes[signal] != null;
  }

  @Override
  public void event(long time, int signal, long newValue, long line) {
    if (time != now || !started) {
      moveTo(time);
    }
    events++;
    if (seenAt[signal] != time) {
      seenAt[signal] = time;
    } else if (value[signal] != newValue) {
      overwritten++;
    }
    if (value[signal] != newValue) {
      change(time, signal, newValue, line);
    }
  }

  private void change(long time, int signal, long newValue, long line) {
    value[signal] = newValue;
    signals.changedAt[signal] = time;
    signals.changedLine[signal] = line;
    Node node = nodes[signal];
    if (node != null && node.update(Moments.of(time))) {
      graph.markDependents(node);
    }
  }

  @Override
  public void advanceTo(long time) {
    if (time != now || !started) {
      moveTo(time);
    }
  }

  private void moveTo(long time) {
    if (!started) {
      begin(time);
      return;
    }
    if (time < now || time > TIME_LIMIT) {
      throw new IllegalArgumentException("time " + time + " ns after " + now + " ns: events have to come in order of time, and within "
          + TIME_LIMIT + " ns of zero");
    }
    graph.evaluate(Moments.of(now));
    graph.runBefore(Moments.of(time));
    now = time;
  }

  private void begin(long time) {
    if (time < -TIME_LIMIT || time > TIME_LIMIT) {
      throw new IllegalArgumentException("time " + time + " ns: has to be within " + TIME_LIMIT + " ns of zero");
    }
    started = true;
    start = time;
    now = time;
    graph.startAt(Moments.of(time));
  }

  /**
   * Ends the trace at the last time it was told of.
   *
   * @return what the trace says about every rule; nothing arose in a trace without any instant
   */
  public TraceOutcome finish() {
    return finish(now);
  }

  /**
   * Ends the trace at a stated time.
   *
   * @param end nanoseconds, not before the last event
   */
  public TraceOutcome finish(long end) {
    if (started) {
      advanceTo(end);
      ends.forEach(Inputs.TraceEnd::reach);
      long last = Moments.of(end);
      graph.evaluate(last);
      judges.forEach(judge -> judge.finish(last));
    }
    return soFar();
  }

  /** What the trace says up to now, for a look at a live feed; obligations that still wait are not counted. */
  public TraceOutcome soFar() {
    List<RuleOutcome> rules = new ArrayList<>();
    judges.forEach(judge -> rules.add(judge.outcome()));
    List<ZoneOutcome> counted = new ArrayList<>();
    for (ZoneNode zone : zones) {
      if (zone != null) {
        counted.add(zone.outcome());
      }
    }
    return new TraceOutcome(start, now, events, overwritten, rules, counted);
  }
}

package dev.pawl.engine.evaluation;

import dev.pawl.engine.EngineOptions;
import dev.pawl.engine.EventSink;
import dev.pawl.engine.FindingListener;
import dev.pawl.engine.RuleOutcome;
import dev.pawl.engine.ZoneListener;
import dev.pawl.engine.ZoneOutcome;
import dev.pawl.engine.graph.Graph;
import dev.pawl.engine.graph.Moments;
import dev.pawl.engine.graph.Node;
import dev.pawl.engine.graph.SignalState;
import dev.pawl.engine.judge.Judge;
import dev.pawl.engine.judge.Trial;
import dev.pawl.engine.operator.Inputs;
import dev.pawl.engine.plan.Plan;
import dev.pawl.engine.plan.Selection;
import dev.pawl.engine.zone.ZoneNode;
import dev.pawl.grammar.rules.model.RuleBook;
import java.util.List;
import java.util.Objects;
import java.util.stream.Stream;

/**
 * Some rules and zones, evaluated together over one trace. It takes events that have passed {@link Arrivals}: in order,
 * each giving its signal another value. Those of signals that it does not need may be left out. The time of the trace's
 * first event it has to be told first of all.
 *
 * <p>The present instant is left open until a later event, {@link #advanceTo} or {@link #finish} closes it, since more
 * events may bear its time. Closing it evaluates what its events have marked; then the timers that are due before the
 * next instant fire, each at its own time.
 */
public final class Evaluation implements EventSink {

  private final Graph graph;
  private final SignalState[] signals;
  private final List<Judge> judges;
  private final List<Trial> trials;
  private final ZoneNode[] zones;
  private final List<Inputs.TraceEnd> ends;

  public Evaluation(RuleBook book, Selection selection, EngineOptions options, FindingListener listener) {
    Plan plan = new Plan(book, selection, options, listener);
    graph = plan.graph();
    signals = plan.signals();
    judges = plan.judges();
    trials = plan.trials();
    zones = plan.zones();
    ends = plan.ends();
  }

  /** Whether any of the rules and zones rests on a signal. */
  public boolean needs(int signal) {
    return signals[signal].node != null;
  }

  /** Tells this listener of each count from now on. */
  public void tellCounts(ZoneListener listener) {
    Stream.of(zones).filter(Objects::nonNull).forEach(zone -> zone.tell(listener));
  }

  @Override
  public void event(long time, int signal, long value, long line) {
    long moment = Moments.of(time);
    graph.advanceTo(moment);
    SignalState state = signals[signal];
    state.value = value;
    state.changedAt = time;
    state.changedLine = line;
    Node node = state.node;
    if (node != null && node.update(moment)) {
      graph.markDependents(node);
    }
  }

  @Override
  public void advanceTo(long time) {
    graph.advanceTo(Moments.of(time));
  }

  /**
   * Ends the trace.
   *
   * @param end nanoseconds, not before the last event
   */
  public void finish(long end) {
    advanceTo(end);
    ends.forEach(Inputs.TraceEnd::reach);
    long last = Moments.of(end);
    graph.evaluate(last);
    judges.forEach(judge -> judge.finish(last));
    trials.forEach(trial -> trial.finish(last));
  }

  /** What the trace says of the rules up to now; obligations that still wait are not counted. */
  public List<RuleOutcome> rules() {
    return judges.stream().map(Judge::outcome).toList();
  }

  /** What has been counted in the zones up to now. */
  public List<ZoneOutcome> zones() {
    return Stream.of(zones).filter(Objects::nonNull).map(ZoneNode::outcome).toList();
  }
}

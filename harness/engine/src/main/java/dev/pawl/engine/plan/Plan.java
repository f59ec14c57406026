package dev.pawl.engine.plan;

import dev.pawl.engine.EngineOptions;
import dev.pawl.engine.FindingListener;
import dev.pawl.engine.graph.Begun;
import dev.pawl.engine.graph.Event;
import dev.pawl.engine.graph.Graph;
import dev.pawl.engine.graph.SignalState;
import dev.pawl.engine.judge.Judge;
import dev.pawl.engine.judge.Trial;
import dev.pawl.engine.operator.Inputs;
import dev.pawl.engine.zone.Opening;
import dev.pawl.engine.zone.ZoneEnd;
import dev.pawl.engine.zone.ZoneNode;
import dev.pawl.grammar.rules.model.Rule;
import dev.pawl.grammar.rules.model.RuleBook;
import dev.pawl.grammar.rules.model.Zone;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.IntStream;
import java.util.stream.Stream;

/** The graph of some rules and zones of a book, ready to be run. */
public final class Plan {

  private final RuleBook book;
  private final EngineOptions options;
  private final FindingListener listener;
  private final Graph graph = new Graph();
  private final SignalState[] signals;
  private final ZoneNode[] zones;
  private final List<Judge> judges = new ArrayList<>();
  private final List<Inputs.TraceEnd> ends = new ArrayList<>();
  private final List<Trial> trials;
  private final ExpressionPlanner expressions;

  public Plan(RuleBook book, Selection selection, EngineOptions options, FindingListener listener) {
    this.book = book;
    this.options = options;
    this.listener = listener;
    this.signals = IntStream.range(0, book.signals().size()).mapToObj(SignalState::new).toArray(SignalState[]::new);
    this.zones = new ZoneNode[book.zones().size()];
    this.expressions = new ExpressionPlanner(book, graph, signals, this::zone, options, ends);
    selection.zones().forEach(zone -> zone(zone.index()));
    RulePlanner rules = new RulePlanner(book, graph, signals, this::zone, expressions, listener, options);
    for (Rule rule : selection.rules()) {
      judges.add(rules.plan(rule));
    }
    trials = rules.trials();
    graph.seal();
  }

  /** The nodes that have to know the last moment before the judges' outcomes count. */
  public List<Trial> trials() {
    return trials;
  }

  public Graph graph() {
    return graph;
  }

  /** The signals by index; what is told of one that has no node changes nothing. */
  public SignalState[] signals() {
    return signals;
  }

  /** The nodes of the zones by index; null for one that is not counted. */
  public ZoneNode[] zones() {
    return zones;
  }

  public List<Judge> judges() {
    return judges;
  }

  /** The nodes that have to know the last moment. */
  public List<Inputs.TraceEnd> ends() {
    return ends;
  }

  private ZoneNode zone(int index) {
    if (zones[index] == null) {
      Zone zone = book.zones().get(index);
      ZoneEnd entry = end(zone.entry(), ZoneEnd::entry);
      ZoneEnd exit = end(zone.exit(), ZoneEnd::exit);
      Opening opening = zone.startsWith().isPresent() ? opening(zone) : null;
      zones[index] = graph.add(new ZoneNode(zone, entry, exit, opening, listener, options.findingsPerRule()));
    }
    return zones[index];
  }

  private Opening opening(Zone zone) {
    List<Opening.Flag> flags = Stream.of(zone.entry(), zone.exit()).flatMap(end -> end.flags().stream())
        .map(flag -> new Opening.Flag(expressions.plan(flag), expressions.begun(List.of(flag)))).toList();
    return graph.add(new Opening(expressions.begun(zone.conditions()), flags,
        options.sampling().firstValuesWithin()));
  }

  /** Makes an end at which a single event counts. */
  private interface WithOneEvent {
    ZoneEnd make(Event event, Begun begun, SignalState[] behind);
  }

  private ZoneEnd end(Zone.Boundary boundary, WithOneEvent withOneEvent) {
    SignalState[] behind = new Dependencies().of(boundary.conditions()).throughZones(book).among(signals);
    return boundary.match(edge -> withOneEvent.make(expressions.planEvent(edge.event()),
        expressions.begun(edge.conditions()), behind), pair ->
        ZoneEnd.pair(expressions.plan(pair.outer()), expressions.plan(pair.inner()),
        expressions.begun(pair.conditions()), behind));
  }
}

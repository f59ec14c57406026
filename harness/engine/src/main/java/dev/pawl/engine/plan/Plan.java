package dev.pawl.engine.plan;

import dev.pawl.engine.EngineOptions;
import dev.pawl.engine.FindingListener;
import dev.pawl.engine.duty.Judge;
import dev.pawl.engine.graph.Event;
import dev.pawl.engine.graph.Graph;
import dev.pawl.engine.graph.SignalState;
import dev.pawl.engine.operator.Inputs;
import dev.pawl.engine.zone.ZoneNode;
import dev.pawl.grammar.rules.model.BoolExpr;
import dev.pawl.grammar.rules.model.Expressions;
import dev.pawl.grammar.rules.model.Rule;
import dev.pawl.grammar.rules.model.RuleBook;
import dev.pawl.grammar.rules.model.Zone;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.IntStream;

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
  private final ExpressionPlanner expressions;

  public Plan(RuleBook book, Selection selection, EngineOptions options, FindingListener listener) {
    this.book = book;
    this.options = options;
    this.listener = listener;
    this.signals = IntStream.range(0, book.signals().size()).mapToObj(SignalState::new).toArray(SignalState[]::new);
    this.zones = new ZoneNode[book.zones().size()];
    this.expressions = new ExpressionPlanner(graph, signals, this::zone, options.share(), ends);
    selection.zones().forEach(zone -> zone(zone.index()));
    RulePlanner rules = new RulePlanner(book, graph, signals, this::zone, expressions, listener, options.findingsPerRule());
    for (Rule rule : selection.rules()) {
      judges.add(rules.plan(rule));
    }
    graph.seal();
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
      zones[index] = graph.add(new ZoneNode(zone, flags(zone.entry()), signalsOf(zone.entry()), flags(zone.exit()),
          signalsOf(zone.exit()), listener, options.findingsPerRule()));
    }
    return zones[index];
  }

  private SignalState[] signalsOf(Zone.Boundary boundary) {
    return new Footing().of(boundary).throughZones(book).among(signals);
  }

  private List<Event> flags(Zone.Boundary boundary) {
    List<Event> flags = new ArrayList<>();
    for (BoolExpr flag : Expressions.of(boundary)) {
      flags.add(boundary instanceof Zone.Edge ? expressions.planEvent(flag) : Event.of(expressions.plan(flag)));
    }
    return flags;
  }
}

package dev.pawl.engine.plan;

import dev.pawl.engine.EngineOptions;
import dev.pawl.engine.FindingListener;
import dev.pawl.engine.duty.Judge;
import dev.pawl.engine.graph.BoolNode;
import dev.pawl.engine.graph.Graph;
import dev.pawl.engine.graph.Node;
import dev.pawl.engine.graph.SignalTable;
import dev.pawl.engine.operator.Inputs;
import dev.pawl.engine.zone.ZoneNode;
import dev.pawl.grammar.rules.model.BoolExpr;
import dev.pawl.grammar.rules.model.Expressions;
import dev.pawl.grammar.rules.model.Rule;
import dev.pawl.grammar.rules.model.RuleBook;
import dev.pawl.grammar.rules.model.Zone;
import java.util.ArrayList;
import java.util.List;

/** The graph of some rules and zones of a book, ready to be run. */
public final class Plan {

  private final RuleBook book;
  private final EngineOptions options;
  private final FindingListener listener;
  private final Graph graph = new Graph();
  private final SignalTable signals;
  private final Node[] signalNodes;
  private final ZoneNode[] zones;
  private final List<Judge> judges = new ArrayList<>();
  private final List<Inputs.TraceEnd> ends = new ArrayList<>();
  private final ExpressionPlanner expressions;

  public Plan(RuleBook book, Selection selection, EngineOptions options, FindingListener listener) {
    this.book = book;
    this.options = options;
    this.listener = listener;
    this.signals = new SignalTable(book.signals().size());
    this.signalNodes = new Node[book.signals().size()];
    this.zones = new ZoneNode[book.zones().size()];
    this.expressions = new ExpressionPlanner(graph, signals, this::zone, options.share(), signalNodes, ends);
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

  public SignalTable signals() {
    return signals;
  }

  /** The node of each signal by index; null for those that nothing depends on. */
  public Node[] signalNodes() {
    return signalNodes;
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
          signalsOf(zone.exit()), signals, listener, options.findingsPerRule()));
    }
    return zones[index];
  }

  private int[] signalsOf(Zone.Boundary boundary) {
    return new Footing().of(boundary).throughZones(book).signals();
  }

  private List<BoolNode> flags(Zone.Boundary boundary) {
    List<BoolNode> flags = new ArrayList<>();
    for (BoolExpr flag : Expressions.of(boundary)) {
      flags.add(expressions.plan(flag));
    }
    return flags;
  }
}

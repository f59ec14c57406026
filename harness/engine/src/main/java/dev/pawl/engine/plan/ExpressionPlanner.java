package dev.pawl.engine.plan;

import dev.pawl.engine.EngineOptions;
import dev.pawl.engine.graph.Begun;
import dev.pawl.engine.graph.BoolNode;
import dev.pawl.engine.graph.EnumNode;
import dev.pawl.engine.graph.Event;
import dev.pawl.engine.graph.Graph;
import dev.pawl.engine.graph.Node;
import dev.pawl.engine.graph.NumNode;
import dev.pawl.engine.graph.SignalState;
import dev.pawl.engine.operator.Changes;
import dev.pawl.engine.operator.Counts;
import dev.pawl.engine.operator.Edges;
import dev.pawl.engine.operator.Extremes;
import dev.pawl.engine.operator.Inputs;
import dev.pawl.engine.operator.LateBeginning;
import dev.pawl.engine.operator.Logic;
import dev.pawl.engine.operator.MeanCompare;
import dev.pawl.engine.operator.Numbers;
import dev.pawl.engine.operator.TimeSinceCompare;
import dev.pawl.engine.operator.Windows;
import dev.pawl.engine.zone.ZoneNode;
import dev.pawl.engine.zone.ZoneViews;
import dev.pawl.grammar.rules.model.BoolExpr;
import dev.pawl.grammar.rules.model.EnumExpr;
import dev.pawl.grammar.rules.model.Expr;
import dev.pawl.grammar.rules.model.NumExpr;
import dev.pawl.grammar.rules.model.RuleBook;
import dev.pawl.grammar.rules.model.RuleParts;
import dev.pawl.grammar.rules.model.Signal;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.function.IntFunction;
import java.util.function.Supplier;

/** Makes the nodes of expressions. Inputs come before what uses them, so the order of making is a topological one. */
final class ExpressionPlanner implements Expr.Visitor<Node> {

  private final RuleBook book;
  private final Graph graph;
  private final SignalState[] signals;
  private final IntFunction<ZoneNode> zones;
  private final EngineOptions options;
  private final Map<Reading, Node> made = new HashMap<>();
  private final Map<Set<Integer>, Begun> begun = new HashMap<>();
  private final List<Inputs.TraceEnd> ends;
  /** Whether what is being planned is looked back at later. */
  private boolean lookedBackAt;

  /** An expression, and whether it is looked back at. */
  private record Reading(Expr expression, boolean lookedBackAt) {}

  /**
   * A planner.
   *
   * @param signals given the node of each that an expression uses
   * @param ends filled with the nodes that have to know the end of the trace
   */
  ExpressionPlanner(RuleBook book, Graph graph, SignalState[] signals, IntFunction<ZoneNode> zones,
      EngineOptions options, List<Inputs.TraceEnd> ends) {
    this.book = book;
    this.graph = graph;
    this.signals = signals;
    this.zones = zones;
    this.options = options;
    this.ends = ends;
  }

  BoolNode plan(BoolExpr expression) {
    return (BoolNode) shared(expression);
  }

  /** What is needed to follow when a condition becomes true. */
  Event planEvent(BoolExpr expression) {
    if (expression instanceof BoolExpr.Rises e && plan(e.operand()) instanceof Inputs.BoolSignal signal) {
      return signal.turn(false);
    } else if (expression instanceof BoolExpr.Falls e && plan(e.operand()) instanceof Inputs.BoolSignal signal) {
      return signal.turn(true);
    }
    return Event.of(plan(expression), begun(List.of(expression)));
  }

  NumNode plan(NumExpr expression) {
    return (NumNode) shared(expression);
  }

  EnumNode plan(EnumExpr expression) {
    return (EnumNode) shared(expression);
  }

  /** Whether all signals behind some expressions have had a value. */
  Begun begun(List<? extends Expr> expressions) {
    Set<Integer> read = RuleParts.signals(expressions, book);
    read.forEach(signal -> plan(book.signals().get(signal)));
    return begun.computeIfAbsent(read, all ->
        graph.add(new Begun(all.stream().map(signal -> signals[signal]).toArray(SignalState[]::new))));
  }

  /** Makes the node of a signal, if it has none yet. */
  private void plan(Signal signal) {
    signal.type().<Node>match(
        bool -> plan(new BoolExpr.Signal(signal.index())),
        enumeration -> plan(new EnumExpr.Signal(signal.index())),
        quantity -> plan(new NumExpr.Signal(signal.index())));
  }

  private Node shared(Expr expression) {
    if (lookedBackAt && expression.zones().isEmpty()) {
      lookedBackAt = false;
      Node node = shared(expression);
      lookedBackAt = true;
      return node;
    }
    if (!options.share() && expression.parts().signal().isEmpty()) {
      return expression.accept(this);
    }
    Reading reading = new Reading(expression, lookedBackAt);
    Node known = made.get(reading);
    if (known == null) {
      known = expression.accept(this);
      made.put(reading, known);
    }
    return known;
  }

  @Override public Node visit(BoolExpr.Constant e) { return graph.add(new Inputs.BoolConstant(e.value())); }
  @Override public Node visit(BoolExpr.Signal e) {
    return signal(e.signal(), new Inputs.BoolSignal(signals[e.signal()]));
  }
  @Override public Node visit(BoolExpr.And e) { return graph.add(new Logic.And(plan(e.left()), plan(e.right()))); }
  @Override public Node visit(BoolExpr.Or e) { return graph.add(new Logic.Or(plan(e.left()), plan(e.right()))); }
  @Override public Node visit(BoolExpr.Same e) { return graph.add(new Logic.Same(plan(e.left()), plan(e.right()))); }
  @Override public Node visit(BoolExpr.EnumEquals e) {
    return graph.add(new Logic.EnumEquals(plan(e.left()), plan(e.right())));
  }
  @Override public Node visit(BoolExpr.Rises e) { return rises(e.operand(), false); }
  @Override public Node visit(BoolExpr.Falls e) { return rises(e.operand(), true); }
  @Override public Node visit(BoolExpr.BoolChanges e) {
    return graph.add(new Edges.BoolChanges(plan(e.operand()), begun(List.of(e.operand()))));
  }
  @Override public Node visit(BoolExpr.NumChanges e) {
    return graph.add(new Edges.NumChanges(plan(e.operand()), begun(List.of(e.operand()))));
  }
  @Override public Node visit(BoolExpr.EnumChanges e) {
    return graph.add(new Edges.EnumChanges(plan(e.operand()), begun(List.of(e.operand()))));
  }
  @Override public Node visit(BoolExpr.HeldFor e) { return heldFor(e, () -> plan(e.operand()), Windows.Off.NONE); }
  @Override public Node visit(BoolExpr.InLast e) { return inLast(e, () -> plan(e.operand()), Windows.Off.NONE); }
  @Override public Node visit(BoolExpr.Since e) {
    return since(e, () -> plan(e.operand()), () -> plan(e.anchor()), Windows.Off.NONE);
  }

  /** The node of one whose operand is planned in some way, and whose times are off. */
  BoolNode heldFor(BoolExpr.HeldFor e, Supplier<BoolNode> operand, Windows.Off off) {
    return graph.add(new Windows.HeldFor(lookBack(operand), e.duration(), off, late(e)));
  }

  BoolNode inLast(BoolExpr.InLast e, Supplier<BoolNode> operand, Windows.Off off) {
    return graph.add(new Windows.InLast(lookBack(operand), e.duration(), off, late(e)));
  }

  BoolNode since(BoolExpr.Since e, Supplier<BoolNode> operand, Supplier<BoolNode> anchor, Windows.Off off) {
    return graph.add(new Windows.Since(lookBack(operand), lookBack(anchor),
        isOfOneSignal(e) ? Windows.Off.NONE : off, late(e)));
  }

  /** Whether what is planned now is looked back at later, by the zones in an expression. */
  boolean looksBackAt(Expr expression) {
    return lookedBackAt && !expression.zones().isEmpty();
  }

  /** What is planned in the course of it is looked back at later. */
  private <N> N lookBack(Supplier<N> planning) {
    boolean before = lookedBackAt;
    lookedBackAt = true;
    N planned = planning.get();
    lookedBackAt = before;
    return planned;
  }

  /** Whether the events in an expression that looks back may have happened before anybody looked. */
  private LateBeginning late(Expr expression) {
    boolean[] events = {!(expression instanceof BoolExpr)};
    expression.walk(part -> events[0] |= part instanceof BoolExpr.Moment);
    return events[0] ? new LateBeginning(begun(List.of(expression)), options.sampling().firstValuesWithin())
        : LateBeginning.NEVER;
  }

  /** Whether an expression rests on one signal only, whose changes keep their order. */
  private boolean isOfOneSignal(BoolExpr expression) {
    return RuleParts.signals(List.of(expression), book).size() < 2;
  }

  @Override public Node visit(BoolExpr.Previous e) { return graph.add(new Windows.BoolPrevious(plan(e.operand()))); }
  @Override public Node visit(BoolExpr.Occupied e) { return occupied(e, false); }
  @Override public Node visit(BoolExpr.Enters e) { return momentary(e.zone(), ZoneViews.Event.ENTERS); }
  @Override public Node visit(BoolExpr.Leaves e) { return momentary(e.zone(), ZoneViews.Event.LEAVES); }
  @Override public Node visit(BoolExpr.BacksOut e) { return momentary(e.zone(), ZoneViews.Event.BACKS_OUT); }
  @Override public Node visit(BoolExpr.Miscounts e) { return momentary(e.zone(), ZoneViews.Event.MISCOUNTS); }
  @Override public Node visit(BoolExpr.TraceStart e) { return graph.add(new Inputs.TraceStart()); }

  @Override
  public Node visit(BoolExpr.Not e) {
    if (e.operand() instanceof BoolExpr.Compare compare) {
      return visit(compare.negated());
    }
    return e.operand() instanceof BoolExpr.Occupied occupied ? occupied(occupied, true)
        : graph.add(new Logic.Not(plan(e.operand())));
  }

  @Override
  public Node visit(BoolExpr.TraceEnd e) {
    Inputs.TraceEnd end = graph.add(new Inputs.TraceEnd());
    ends.add(end);
    return end;
  }

  @Override public Node visit(BoolExpr.Compare e) { return compare(e, 0); }

  /** The node of a comparison in which durations are off by some moments. */
  BoolNode compare(BoolExpr.Compare e, long slack) {
    if (slack > 0 && Durations.areCounted(e)) {
      BoolNode shorter = plan(Durations.longer(e, -slack));
      return graph.add(new Logic.Agreement(shorter, plan(Durations.longer(e, slack))));
    }
    if (e.left() instanceof NumExpr.TimeSince since) {
      return graph.add(new TimeSinceCompare(e.comparison(), lookBack(() -> planEvent(since.event())), plan(e.right()),
          e.tolerance(), slack, late(since)));
    } else if (e.right() instanceof NumExpr.TimeSince since) {
      return graph.add(new TimeSinceCompare(e.comparison().mirrored(), lookBack(() -> planEvent(since.event())),
          plan(e.left()), e.tolerance(), slack, late(since)));
    } else if (e.left() instanceof NumExpr.Mean mean) {
      return graph.add(new MeanCompare(e.comparison(), lookBack(() -> plan(mean.operand())), mean.duration(),
          plan(e.right()), e.tolerance()));
    } else if (e.right() instanceof NumExpr.Mean mean) {
      return graph.add(new MeanCompare(e.comparison().mirrored(), lookBack(() -> plan(mean.operand())),
          mean.duration(), plan(e.left()), e.tolerance()));
    }
    BoolExpr.Compare usual = constantLast(e);
    return graph.add(new Numbers.Compare(usual.comparison(), plan(usual.left()), plan(usual.right()),
        usual.tolerance()));
  }

  private Node rises(BoolExpr operand, boolean falling) {
    BoolNode node = plan(operand);
    return graph.add(node instanceof Inputs.BoolSignal signal ? new Edges.SignalRises(signal, falling)
        : new Edges.Rises(node, falling, begun(List.of(operand))));
  }

  private Node occupied(BoolExpr.Occupied e, boolean not) {
    return graph.add(new ZoneViews.Occupied(zones.apply(e.zone()), not, lookedBackAt));
  }

  private Node momentary(int zone, ZoneViews.Event event) {
    return graph.add(new ZoneViews.Momentary(zones.apply(zone), event));
  }

  /** The same comparison with a constant that stands on its left side on the right one. */
  static BoolExpr.Compare constantLast(BoolExpr.Compare e) {
    return e.left() instanceof NumExpr.Constant ? e.mirrored() : e;
  }

  @Override public Node visit(NumExpr.Constant e) { return graph.add(new Inputs.NumConstant(e.value())); }
  @Override public Node visit(NumExpr.Signal e) {
    return signal(e.signal(), new Inputs.NumSignal(signals[e.signal()]));
  }
  @Override public Node visit(NumExpr.Negate e) { return graph.add(new Numbers.Negate(plan(e.operand()))); }
  @Override public Node visit(NumExpr.CountInLast e) {
    return graph.add(new Counts.InLast(lookBack(() -> planEvent(e.event())), e.duration(), late(e)));
  }
  @Override public Node visit(NumExpr.CountSince e) {
    return graph.add(new Counts.Since(lookBack(() -> planEvent(e.event())), lookBack(() -> planEvent(e.anchor())),
        late(e)));
  }
  @Override public Node visit(NumExpr.TimeSince e) { throw moves(e); }
  @Override public Node visit(NumExpr.Extreme e) {
    return graph.add(new Extremes.Extreme(e.greatest(), lookBack(() -> plan(e.operand())), e.duration()));
  }
  @Override public Node visit(NumExpr.Mean e) { throw moves(e); }
  @Override public Node visit(NumExpr.Rate e) { return graph.add(new Changes.Rate(plan(e.operand()))); }
  @Override public Node visit(NumExpr.Previous e) { return graph.add(new Changes.NumPrevious(plan(e.operand()))); }
  @Override public Node visit(NumExpr.PassingSpeed e) {
    return graph.add(new Changes.PassingSpeed(planEvent(e.from()), planEvent(e.to()), e.distance()));
  }
  @Override public Node visit(NumExpr.Trains e) {
    return graph.add(new ZoneViews.Trains(zones.apply(e.zone()), lookedBackAt));
  }

  @Override
  public Node visit(NumExpr.Arithmetic e) {
    if (e.operator() == NumExpr.Operator.SUBTRACT && e.left() instanceof NumExpr.Extreme most
        && e.right() instanceof NumExpr.Extreme least && most.greatest()
        && least.equals(new NumExpr.Extreme(false, most.operand(), most.duration()))) {
      return graph.add(new Extremes.Swing(lookBack(() -> plan(most.operand())), most.duration()));
    }
    return graph.add(new Numbers.Arithmetic(e.operator(), plan(e.left()), plan(e.right())));
  }

  private static IllegalArgumentException moves(NumExpr e) {
    return new IllegalArgumentException("only to be compared with something that does not move between events: " + e);
  }

  @Override public Node visit(EnumExpr.Literal e) { return graph.add(new Inputs.EnumConstant(e.index())); }
  @Override public Node visit(EnumExpr.Signal e) {
    return signal(e.signal(), new Inputs.EnumSignal(signals[e.signal()]));
  }
  @Override public Node visit(EnumExpr.Previous e) { return graph.add(new Changes.EnumPrevious(plan(e.operand()))); }

  private Node signal(int index, Node node) {
    signals[index].node = graph.add(node);
    return node;
  }
}

package dev.pawl.engine.plan;

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
import dev.pawl.engine.operator.Logic;
import dev.pawl.engine.operator.MeanCompare;
import dev.pawl.engine.operator.Numbers;
import dev.pawl.engine.operator.TimeSinceCompare;
import dev.pawl.engine.operator.Windows;
import dev.pawl.engine.zone.ZoneNode;
import dev.pawl.engine.zone.ZoneViews;
import dev.pawl.grammar.rules.model.BoolExpr;
import dev.pawl.grammar.rules.model.EnumExpr;
import dev.pawl.grammar.rules.model.NumExpr;
import dev.pawl.grammar.rules.model.Signal;
import dev.pawl.grammar.rules.model.ValueType;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.function.IntFunction;
import java.util.function.Supplier;

/** Makes the nodes of expressions. Inputs come before what uses them, so the order of making is a topological one. */
final class ExpressionPlanner {

  private final Graph graph;
  private final SignalState[] signals;
  private final IntFunction<ZoneNode> zones;
  private final boolean share;
  private final Map<Object, Node> made = new HashMap<>();
  private final List<Inputs.TraceEnd> ends;

  /**
   * A planner.
   *
   * @param signals given the node of each that an expression uses
   * @param ends filled with the nodes that have to know the end of the trace
   */
  ExpressionPlanner(Graph graph, SignalState[] signals, IntFunction<ZoneNode> zones, boolean share, List<Inputs.TraceEnd> ends) {
    this.graph = graph;
    this.signals = signals;
    this.zones = zones;
    this.share = share;
    this.ends = ends;
  }

  BoolNode plan(BoolExpr expression) {
    return (BoolNode) shared(expression, () -> make(expression));
  }

  /** What is needed to follow when a condition becomes true. */
  Event planEvent(BoolExpr expression) {
    if (expression instanceof BoolExpr.Rises e && plan(e.operand()) instanceof Inputs.BoolSignal signal) {
      return signal.turn(false);
    } else if (expression instanceof BoolExpr.Falls e && plan(e.operand()) instanceof Inputs.BoolSignal signal) {
      return signal.turn(true);
    }
    return Event.of(plan(expression));
  }

  NumNode plan(NumExpr expression) {
    return (NumNode) shared(expression, () -> make(expression));
  }

  EnumNode plan(EnumExpr expression) {
    return (EnumNode) shared(expression, () -> make(expression));
  }

  /** Makes the node of a signal, if it has none yet. */
  void plan(Signal signal) {
    if (signal.type() instanceof ValueType.Bool) {
      plan(new BoolExpr.Signal(signal.index()));
    } else if (signal.type() instanceof ValueType.Enumeration) {
      plan(new EnumExpr.Signal(signal.index()));
    } else {
      plan(new NumExpr.Signal(signal.index()));
    }
  }

  private Node shared(Object expression, Supplier<Node> maker) {
    boolean input = expression instanceof BoolExpr.Signal || expression instanceof NumExpr.Signal
        || expression instanceof EnumExpr.Signal;
    if (!share && !input) {
      return maker.get();
    }
    Node known = made.get(expression);
    if (known == null) {
      known = maker.get();
      made.put(expression, known);
    }
    return known;
  }

  private Node make(BoolExpr expression) {
    if (expression instanceof BoolExpr.Constant e) {
      return graph.add(new Inputs.BoolConstant(e.value()));
    } else if (expression instanceof BoolExpr.Signal e) {
      return signal(e.signal(), new Inputs.BoolSignal(signals[e.signal()]));
    } else if (expression instanceof BoolExpr.Not e && e.operand() instanceof BoolExpr.Compare c) {
      return compare(negated(c));
    } else if (expression instanceof BoolExpr.Not e && e.operand() instanceof BoolExpr.Occupied o) {
      return graph.add(new ZoneViews.Occupied(zones.apply(o.zone()), true));
    } else if (expression instanceof BoolExpr.Not e) {
      return graph.add(new Logic.Not(plan(e.operand())));
    } else if (expression instanceof BoolExpr.And e) {
      return graph.add(new Logic.And(plan(e.left()), plan(e.right())));
    } else if (expression instanceof BoolExpr.Or e) {
      return graph.add(new Logic.Or(plan(e.left()), plan(e.right())));
    } else if (expression instanceof BoolExpr.Same e) {
      return graph.add(new Logic.Same(plan(e.left()), plan(e.right())));
    } else if (expression instanceof BoolExpr.EnumEquals e) {
      return graph.add(new Logic.EnumEquals(plan(e.left()), plan(e.right())));
    } else if (expression instanceof BoolExpr.Compare e) {
      return compare(e);
    } else {
      return makeOverTime(expression);
    }
  }

  private Node makeOverTime(BoolExpr expression) {
    if (expression instanceof BoolExpr.Rises e) {
      return rises(plan(e.operand()), false);
    } else if (expression instanceof BoolExpr.Falls e) {
      return rises(plan(e.operand()), true);
    } else if (expression instanceof BoolExpr.BoolChanges e) {
      return graph.add(new Edges.BoolChanges(plan(e.operand())));
    } else if (expression instanceof BoolExpr.NumChanges e) {
      return graph.add(new Edges.NumChanges(plan(e.operand())));
    } else if (expression instanceof BoolExpr.EnumChanges e) {
      return graph.add(new Edges.EnumChanges(plan(e.operand())));
    } else if (expression instanceof BoolExpr.HeldFor e) {
      return graph.add(new Windows.HeldFor(plan(e.operand()), e.duration()));
    } else if (expression instanceof BoolExpr.InLast e) {
      return graph.add(new Windows.InLast(plan(e.operand()), e.duration()));
    } else if (expression instanceof BoolExpr.Since e) {
      return graph.add(new Windows.Since(plan(e.operand()), plan(e.anchor())));
    } else if (expression instanceof BoolExpr.Previous e) {
      return graph.add(new Windows.BoolPrevious(plan(e.operand())));
    } else {
      return makeOfZone(expression);
    }
  }

  private Node rises(BoolNode operand, boolean falling) {
    return graph.add(operand instanceof Inputs.BoolSignal signal ? new Edges.SignalRises(signal, falling) : new Edges.Rises(operand, falling));
  }

  private Node makeOfZone(BoolExpr expression) {
    if (expression instanceof BoolExpr.Occupied e) {
      return graph.add(new ZoneViews.Occupied(zones.apply(e.zone()), false));
    } else if (expression instanceof BoolExpr.Enters e) {
      return graph.add(new ZoneViews.Momentary(zones.apply(e.zone()), ZoneViews.Event.ENTERS));
    } else if (expression instanceof BoolExpr.Leaves e) {
      return graph.add(new ZoneViews.Momentary(zones.apply(e.zone()), ZoneViews.Event.LEAVES));
    } else if (expression instanceof BoolExpr.BacksOut e) {
      return graph.add(new ZoneViews.Momentary(zones.apply(e.zone()), ZoneViews.Event.BACKS_OUT));
    } else if (expression instanceof BoolExpr.Miscounts e) {
      return graph.add(new ZoneViews.Momentary(zones.apply(e.zone()), ZoneViews.Event.MISCOUNTS));
    } else if (expression instanceof BoolExpr.TraceStart) {
      return graph.add(new Inputs.TraceStart());
    } else if (expression instanceof BoolExpr.TraceEnd) {
      Inputs.TraceEnd end = graph.add(new Inputs.TraceEnd());
      ends.add(end);
      return end;
    }
    throw new IllegalArgumentException("no node for " + expression);
  }

  private Node compare(BoolExpr.Compare e) {
    if (e.left() instanceof NumExpr.TimeSince since) {
      return graph.add(new TimeSinceCompare(e.comparison(), planEvent(since.event()), plan(e.right()), e.tolerance()));
    } else if (e.right() instanceof NumExpr.TimeSince since) {
      return graph.add(new TimeSinceCompare(e.comparison().mirrored(), planEvent(since.event()), plan(e.left()), e.tolerance()));
    } else if (e.left() instanceof NumExpr.Mean mean) {
      return graph.add(new MeanCompare(e.comparison(), plan(mean.operand()), mean.duration(), plan(e.right()), e.tolerance()));
    } else if (e.right() instanceof NumExpr.Mean mean) {
      return graph.add(new MeanCompare(e.comparison().mirrored(), plan(mean.operand()), mean.duration(), plan(e.left()), e.tolerance()));
    }
    BoolExpr.Compare usual = constantLast(e);
    return graph.add(new Numbers.Compare(usual.comparison(), plan(usual.left()), plan(usual.right()), usual.tolerance()));
  }

  /** The same comparison with a constant that stands on its left side on the right one. */
  static BoolExpr.Compare constantLast(BoolExpr.Compare e) {
    return e.left() instanceof NumExpr.Constant
        ? new BoolExpr.Compare(e.comparison().mirrored(), e.right(), e.left(), e.tolerance(), e.dimension()) : e;
  }

  /** The comparison that is true where the given one is false. */
  static BoolExpr.Compare negated(BoolExpr.Compare e) {
    return new BoolExpr.Compare(e.comparison().negated(), e.left(), e.right(), e.tolerance(), e.dimension());
  }

  private Node make(NumExpr expression) {
    if (expression instanceof NumExpr.Constant e) {
      return graph.add(new Inputs.NumConstant(e.value()));
    } else if (expression instanceof NumExpr.Signal e) {
      return signal(e.signal(), new Inputs.NumSignal(signals[e.signal()]));
    } else if (expression instanceof NumExpr.Negate e) {
      return graph.add(new Numbers.Negate(plan(e.operand())));
    } else if (expression instanceof NumExpr.Arithmetic e) {
      return arithmetic(e);
    } else if (expression instanceof NumExpr.CountInLast e) {
      return graph.add(new Counts.InLast(planEvent(e.event()), e.duration()));
    } else if (expression instanceof NumExpr.CountSince e) {
      return graph.add(new Counts.Since(planEvent(e.event()), planEvent(e.anchor())));
    } else if (expression instanceof NumExpr.Extreme e) {
      return graph.add(new Extremes.Extreme(e.greatest(), plan(e.operand()), e.duration()));
    } else if (expression instanceof NumExpr.Rate e) {
      return graph.add(new Changes.Rate(plan(e.operand())));
    } else if (expression instanceof NumExpr.Previous e) {
      return graph.add(new Changes.NumPrevious(plan(e.operand())));
    } else if (expression instanceof NumExpr.PassingSpeed e) {
      return graph.add(new Changes.PassingSpeed(planEvent(e.from()), planEvent(e.to()), e.distance()));
    } else if (expression instanceof NumExpr.Trains e) {
      return graph.add(new ZoneViews.Trains(zones.apply(e.zone())));
    }
    throw new IllegalArgumentException("only to be compared with something that does not move between events: " + expression);
  }

  private Node arithmetic(NumExpr.Arithmetic e) {
    if (e.operator() == NumExpr.Operator.SUBTRACT && e.left() instanceof NumExpr.Extreme most && e.right() instanceof NumExpr.Extreme least
        && most.greatest() && least.equals(new NumExpr.Extreme(false, most.operand(), most.duration()))) {
      return graph.add(new Extremes.Swing(plan(most.operand()), most.duration()));
    }
    return graph.add(new Numbers.Arithmetic(e.operator(), plan(e.left()), plan(e.right())));
  }

  private Node make(EnumExpr expression) {
    if (expression instanceof EnumExpr.Literal e) {
      return graph.add(new Inputs.EnumConstant(e.index()));
    } else if (expression instanceof EnumExpr.Signal e) {
      return signal(e.signal(), new Inputs.EnumSignal(signals[e.signal()]));
    } else if (expression instanceof EnumExpr.Previous e) {
      return graph.add(new Changes.EnumPrevious(plan(e.operand())));
    }
    throw new IllegalArgumentException("no node for " + expression);
  }

  private Node signal(int index, Node node) {
    signals[index].node = graph.add(node);
    return node;
  }
}

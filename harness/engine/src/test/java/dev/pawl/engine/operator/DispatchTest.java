package dev.pawl.engine.operator;

import static dev.pawl.engine.operator.LateBeginning.NEVER;
import static org.assertj.core.api.Assertions.assertThat;

import dev.pawl.engine.EventSink;
import dev.pawl.engine.graph.Begun;
import dev.pawl.engine.graph.BoolNode;
import dev.pawl.engine.graph.EnumNode;
import dev.pawl.engine.graph.Event;
import dev.pawl.engine.graph.Graph;
import dev.pawl.engine.graph.Moments;
import dev.pawl.engine.graph.Node;
import dev.pawl.engine.graph.NumNode;
import dev.pawl.engine.graph.SignalState;
import dev.pawl.engine.zone.ZoneEnd;
import dev.pawl.engine.zone.ZoneNode;
import dev.pawl.engine.zone.ZoneViews;
import dev.pawl.grammar.rules.model.BoolExpr;
import dev.pawl.grammar.rules.model.Comparison;
import dev.pawl.grammar.rules.model.NumExpr;
import dev.pawl.grammar.rules.model.Zone;
import dev.pawl.grammar.source.Position;
import java.util.ArrayList;
import java.util.List;
import java.util.OptionalInt;
import java.util.SplittableRandom;
import java.util.function.Function;
import java.util.stream.IntStream;
import java.util.stream.Stream;
import org.junit.jupiter.api.Named;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

/**
 * What depends on a node is evaluated whenever the node has taken another value, and only then: cost follows changes,
 * not events times rules. Each kind of node is fed signals at random, which stay the same often, and is watched by a
 * node that compares.
 */
class DispatchTest {
  private static final int STEPS = 400;
  private static final int NEVER_TOLD = 0;

  /** The signals, driven as the engine drives them, and the graph they are in. */
  private static final class Bench {
    final Graph graph = new Graph();
    final SignalState[] states = IntStream.range(0, 6).mapToObj(SignalState::new).toArray(SignalState[]::new);
    final Inputs.BoolSignal a = graph.add(new Inputs.BoolSignal(states[0]));
    final BoolNode b = graph.add(new Inputs.BoolSignal(states[1]));
    final NumNode x = graph.add(new Inputs.NumSignal(states[2]));
    final NumNode y = graph.add(new Inputs.NumSignal(states[3]));
    final EnumNode e = graph.add(new Inputs.EnumSignal(states[4]));
    final EnumNode f = graph.add(new Inputs.EnumSignal(states[5]));
    private final List<Node> signals = List.of(a, b, x, y, e, f);
    final Begun begun = begun();

    private Begun begun() {
      for (int signal = 0; signal < states.length; signal++) {
        states[signal].node = signals.get(signal);
      }
      return graph.add(new Begun(states));
    }

    void set(int signal, long value, long moment) {
      states[signal].value = value;
      if (signals.get(signal).update(moment)) {
        graph.markDependents(signals.get(signal));
      }
    }
  }

  /** Compares what it sees of a node with what it saw at its evaluation before. */
  private static final class Watcher extends Node {
    private final Node watched;
    private double seen;
    private int evaluations;

    Watcher(Node watched) {
      this.watched = watched;
    }

    @Override
    protected void connect() {
      dependOn(watched);
    }

    @Override
    public boolean update(long moment) {
      double now = value(watched);
      if (evaluations > 0) {
        assertThat(same(now, seen)).as("evaluated at moment %d for %s again", moment, now).isFalse();
      }
      seen = now;
      evaluations++;
      return false;
    }
  }

  private static double value(Node node) {
    return node instanceof BoolNode flag ? flag.value : node instanceof EnumNode choice ? choice.value
        : ((NumNode) node).value;
  }

  private static boolean same(double one, double other) {
    return one == other || Double.isNaN(one) && Double.isNaN(other);
  }

  static Stream<Named<Function<Bench, Node>>> nodes() {
    return Stream.of(logic(), edges(), overTime(), numbers(), places(), inputs()).flatMap(Function.identity());
  }

  private static Stream<Named<Function<Bench, Node>>> logic() {
    return Stream.of(
        of("not", on -> new Logic.Not(on.a)),
        of("and", on -> new Logic.And(on.a, on.b)),
        of("or", on -> new Logic.Or(on.a, on.b)),
        of("same truth", on -> new Logic.Same(on.a, on.b)),
        of("same member", on -> new Logic.EnumEquals(on.e, on.f)),
        of("comparison", on -> new Numbers.Compare(Comparison.LESS, on.x, on.y, 0)));
  }

  private static Stream<Named<Function<Bench, Node>>> edges() {
    return Stream.of(
        of("rises", on -> new Edges.Rises(on.a, false, on.begun)),
        of("falls", on -> new Edges.Rises(on.a, true, on.begun)),
        of("signal rises", on -> new Edges.SignalRises(on.a, false)),
        of("signal falls", on -> new Edges.SignalRises(on.a, true)),
        of("truth changes", on -> new Edges.BoolChanges(on.a, on.begun)),
        of("number changes", on -> new Edges.NumChanges(on.x, on.begun)),
        of("member changes", on -> new Edges.EnumChanges(on.e, on.begun)));
  }

  private static Stream<Named<Function<Bench, Node>>> overTime() {
    return Stream.of(
        of("held for", on -> new Windows.HeldFor(on.a, 3, Windows.Off.NONE, NEVER)),
        of("in last", on -> new Windows.InLast(on.a, 3, Windows.Off.NONE, NEVER)),
        of("since", on -> new Windows.Since(on.a, on.b, Windows.Off.NONE, NEVER)),
        of("previous truth", on -> new Windows.BoolPrevious(on.a)),
        of("previous number", on -> new Changes.NumPrevious(on.x)),
        of("previous member", on -> new Changes.EnumPrevious(on.e)),
        of("rate", on -> new Changes.Rate(on.x)),
        of("passing speed", on -> new Changes.PassingSpeed(Event.of(on.a, on.begun), Event.of(on.b, on.begun), 6)),
        of("count in last", on -> new Counts.InLast(Event.of(on.a, on.begun), 4, NEVER)),
        of("count since", on -> new Counts.Since(Event.of(on.a, on.begun), Event.of(on.b, on.begun), NEVER)),
        of("greatest", on -> new Extremes.Extreme(true, on.x, 4)),
        of("least", on -> new Extremes.Extreme(false, on.x, 4)),
        of("mean", on -> new MeanCompare(Comparison.AT_LEAST, on.x, 4, on.y, 0)),
        of("time since", on -> new TimeSinceCompare(Comparison.AT_MOST, Event.of(on.a, on.begun),
            on.graph.add(new Inputs.NumConstant(3e-9)), 1e-9, 0, NEVER)));
  }

  private static Stream<Named<Function<Bench, Node>>> numbers() {
    return Stream.of(
        of("minus", on -> new Numbers.Negate(on.x)),
        of("times", on -> new Numbers.Arithmetic(NumExpr.Operator.MULTIPLY, on.x, on.y)));
  }

  private static Stream<Named<Function<Bench, Node>>> places() {
    return Stream.of(
        of("occupied", on -> new ZoneViews.Occupied(zone(on), false, false)),
        of("trains", on -> new ZoneViews.Trains(zone(on), false)),
        of("enters", on -> new ZoneViews.Momentary(zone(on), ZoneViews.Event.ENTERS)),
        of("leaves", on -> new ZoneViews.Momentary(zone(on), ZoneViews.Event.LEAVES)),
        of("miscounts", on -> new ZoneViews.Momentary(zone(on), ZoneViews.Event.MISCOUNTS)));
  }

  private static Stream<Named<Function<Bench, Node>>> inputs() {
    return Stream.of(
        of("truth signal", on -> on.a),
        of("number signal", on -> on.x),
        of("member signal", on -> on.e),
        of("start", on -> new Inputs.TraceStart()));
  }

  private static Named<Function<Bench, Node>> of(String name, Function<Bench, Node> maker) {
    return Named.of(name, maker);
  }

  private static ZoneNode zone(Bench on) {
    Zone.Boundary entry = new Zone.Edge(new BoolExpr.Signal(0));
    Zone.Boundary exit = new Zone.Edge(new BoolExpr.Signal(1));
    Zone zone = new Zone(0, "z", entry, exit, Double.NaN, 2, OptionalInt.of(0), Position.NOWHERE);
    return on.graph.add(new ZoneNode(zone, ZoneEnd.entry(Event.of(on.a, on.begun), on.begun, new SignalState[0]),
        ZoneEnd.exit(Event.of(on.b, on.begun), on.begun, new SignalState[0]), null, null, NEVER_TOLD));
  }

  @ParameterizedTest
  @MethodSource("nodes")
  void evaluatesWhatDependsOnANodeWhenItsValueChangesAndOnlyThen(Function<Bench, Node> maker) {
    Bench bench = new Bench();
    Node node = maker.apply(bench);
    Watcher watcher = watch(bench, bench.signals.contains(node) ? node : bench.graph.add(node));
    SplittableRandom random = new SplittableRandom(11);
    for (long time = 0; time < STEPS; time += random.nextInt(1, 4)) {
      step(bench, random, Moments.of(time));

      assertThat(same(watcher.seen, value(node))).as("seen at time %d: %s, is: %s", time, watcher.seen, value(node))
          .isTrue();
    }
    assertThat(watcher.evaluations).as("evaluations").isGreaterThan(1).isLessThan(STEPS);
  }

  private static Watcher watch(Bench bench, Node node) {
    Watcher watcher = bench.graph.add(new Watcher(node));
    bench.graph.seal();
    bench.graph.advanceTo(0);
    return watcher;
  }

  private static void step(Bench bench, SplittableRandom random, long moment) {
    bench.graph.runBefore(moment);
    for (int signal = 0; signal < bench.states.length; signal++) {
      if (random.nextInt(100) < 60) {
        int drawn = random.nextInt(3);
        long known = signal == 2 || signal == 3 ? Double.doubleToRawLongBits(drawn) : signal < 2 ? drawn & 1 : drawn;
        bench.set(signal, random.nextInt(100) < 3 ? EventSink.UNKNOWN : known, moment);
      }
    }
    bench.graph.evaluate(moment);
  }

  /** Constants have their value from the start, and the end of the trace is told of by the engine. */
  @ParameterizedTest
  @MethodSource("constants")
  void evaluatesWhatDependsOnAConstantOnce(Node constant) {
    Bench bench = new Bench();
    Watcher watcher = watch(bench, bench.graph.add(constant));
    SplittableRandom random = new SplittableRandom(12);
    for (long time = 0; time < STEPS; time++) {
      bench.graph.mark(constant);
      step(bench, random, Moments.of(time));
    }
    assertThat(watcher.evaluations).isEqualTo(1);
  }

  static List<Named<Node>> constants() {
    List<Named<Node>> constants = new ArrayList<>();
    constants.add(Named.of("truth", new Inputs.BoolConstant(true)));
    constants.add(Named.of("number", new Inputs.NumConstant(1)));
    constants.add(Named.of("member", new Inputs.EnumConstant(1)));
    constants.add(Named.of("end", new Inputs.TraceEnd()));
    return constants;
  }
}

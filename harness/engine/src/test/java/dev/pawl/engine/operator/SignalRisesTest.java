package dev.pawl.engine.operator;

import static org.assertj.core.api.Assertions.assertThat;

import dev.pawl.engine.EventSink;
import dev.pawl.engine.graph.Begun;
import dev.pawl.engine.graph.BoolNode;
import dev.pawl.engine.graph.Event;
import dev.pawl.engine.graph.Graph;
import dev.pawl.engine.graph.Moments;
import dev.pawl.engine.graph.Node;
import dev.pawl.engine.graph.SignalState;
import java.util.ArrayList;
import java.util.List;
import java.util.SplittableRandom;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** An edge of a signal says what an edge of any condition would say, and is evaluated half as often. */
class SignalRisesTest {
  private static final int STEPS = 2_000;

  private final Graph graph = new Graph();
  private final SignalState state = new SignalState(0);
  private final Inputs.BoolSignal signal = graph.add(new Inputs.BoolSignal(state));
  private final BoolNode same = graph.add(new Logic.And(signal, signal));
  private final Begun begun = begun();
  private final Counting rises = graph.add(new Counting(true));
  private final Counting falls = graph.add(new Counting(false));

  private Begun begun() {
    state.node = signal;
    return graph.add(new Begun(new SignalState[] {state}));
  }

  /** Asks to be evaluated when the signal turns one way, and counts how often it is. */
  private final class Counting extends Node {
    private final boolean rising;
    private int evaluations;

    Counting(boolean rising) {
      this.rising = rising;
    }

    @Override
    protected void connect() {
      dependOn(signal.turn(!rising));
    }

    @Override
    public boolean update(long moment) {
      evaluations++;
      return false;
    }
  }

  /** Follows an event, and notes when it happens and, negative, from when to when it possibly does. */
  private final class Follower extends Node {
    private final Event event;
    private final EventTest test;
    private final List<Long> noted = new ArrayList<>();
    private boolean wasUnclear;

    Follower(Event event) {
      this.event = event;
      this.test = new EventTest(event, this);
    }

    @Override
    protected void connect() {
      dependOn(event);
    }

    @Override
    public boolean update(long moment) {
      test.follow(moment);
      if (test.happens()) {
        noted.add(moment);
      } else if (test.isUnclear() != wasUnclear) {
        noted.add(-moment);
      }
      wasUnclear = test.isUnclear();
      return false;
    }
  }

  private void event(long time, long value) {
    state.value = value;
    if (signal.update(Moments.of(time))) {
      graph.markDependents(signal);
    }
  }

  private void begin(long value) {
    graph.seal();
    graph.advanceTo(0);
    event(0, value);
    graph.evaluate(0);
    rises.evaluations = 0;
    falls.evaluations = 0;
  }

  @ParameterizedTest
  @ValueSource(booleans = {false, true})
  void saysWhatAnEdgeOfAnyConditionSays(boolean falling) {
    BoolNode quick = graph.add(new Edges.SignalRises(signal, falling));
    BoolNode plain = graph.add(new Edges.Rises(same, falling, begun));
    begin(EventSink.UNKNOWN);
    SplittableRandom random = new SplittableRandom(25);
    int happened = 0;
    for (int time = 1; time <= STEPS; time++) {
      graph.runBefore(Moments.of(time));
      assertThat(quick.value).as("just before %d", time).isEqualTo(plain.value);
      for (int events = random.nextInt(4); events > 0; events--) {
        event(time, random.nextInt(8) == 0 ? EventSink.UNKNOWN : random.nextInt(2));
      }
      graph.evaluate(Moments.of(time));
      assertThat(quick.value).as("at %d", time).isEqualTo(plain.value);
      happened += quick.value;
    }
    assertThat(happened).isGreaterThan(100);
  }

  @ParameterizedTest
  @ValueSource(booleans = {false, true})
  void happensWhenAnEdgeOfAnyConditionHappens(boolean falling) {
    Follower quick = graph.add(new Follower(signal.turn(falling)));
    Follower plain = graph.add(new Follower(Event.of(graph.add(new Edges.Rises(same, falling, begun)), begun)));
    SplittableRandom random = new SplittableRandom(26);
    begin(random.nextInt(2));
    for (int time = 1; time <= STEPS; time++) {
      graph.runBefore(Moments.of(time));
      for (int events = random.nextInt(4); events > 0; events--) {
        event(time, random.nextInt(8) == 0 ? EventSink.UNKNOWN : random.nextInt(2));
      }
      graph.evaluate(Moments.of(time));
    }
    assertThat(quick.noted).isEqualTo(plain.noted).hasSizeGreaterThan(400).anyMatch(moment -> moment < 0);
  }

  @Test
  void isNotEvaluatedWhenTheSignalTurnsTheOtherWay() {
    begin(0);
    for (int time = 1; time <= 9; time++) {
      graph.runBefore(Moments.of(time));
      event(time, time & 1);
      graph.evaluate(Moments.of(time));
    }

    assertThat(rises.evaluations).isEqualTo(5);
    assertThat(falls.evaluations).isEqualTo(4);
  }

  /** That an event possibly happens from the moment after, who follows it sees by itself. */
  @Test
  void isEvaluatedWhenTheSignalBecomesUnknownOrKnown() {
    begin(1);
    event(1, EventSink.UNKNOWN);
    graph.evaluate(Moments.of(1));
    assertThat(rises.evaluations).isEqualTo(1);
    assertThat(falls.evaluations).isEqualTo(1);

    graph.runBefore(Moments.of(2));
    event(2, 0);
    graph.evaluate(Moments.of(2));
    graph.runBefore(Moments.of(3));
    assertThat(rises.evaluations).isEqualTo(2);
    assertThat(falls.evaluations).isEqualTo(2);
  }
}

package dev.pawl.logic.drawn;

import dev.pawl.logic.drawn.NaiveCharts.Action;
import dev.pawl.logic.drawn.NaiveCharts.Control;
import dev.pawl.logic.drawn.NaiveCharts.Qualifier;
import dev.pawl.logic.drawn.NaiveCharts.Step;
import dev.pawl.logic.drawn.NaiveCharts.Term;
import dev.pawl.logic.drawn.NaiveCharts.Transition;
import java.util.ArrayList;
import java.util.Collections;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.function.Supplier;
import java.util.stream.Collectors;
import java.util.stream.IntStream;
import java.util.stream.Stream;

/**
 * Charts drawn at random: sequences, selections, simultaneous branches and loops in one another, or transitions from
 * any steps to any; steps that control the same actions and variables by all qualifiers.
 */
final class RandomCharts {

  static final List<String> INPUTS = List.of("a0", "a1", "a2");

  static final String TIME = "t0";

  private static final List<String> CONTROLLED = List.of("q0", "q1", "q2");

  private static final List<String> BODIES = List.of("act0", "act1", "act2");

  private static final List<String> NUMBERS = List.of("n0", "n1");

  private static final List<String> TRUTHS = Stream.of(INPUTS, CONTROLLED, List.of("m0")).flatMap(List::stream)
      .toList();

  private final Random random;
  private final List<List<Control>> steps = new ArrayList<>();
  private final List<Transition> transitions = new ArrayList<>();
  private final List<Action> actions = new ArrayList<>();
  private final List<Integer> initial = new ArrayList<>();
  private final Map<Integer, Integer> places = new HashMap<>();
  private int most;

  RandomCharts(long seed) {
    this.random = new Random(seed);
    this.most = 4 + random.nextInt(10);
    initial.add(step());
    if (random.nextInt(4) == 0) {
      free();
    } else {
      int end = region(0, 2);
      join(List.of(end), List.of(0));
      if (random.nextInt(5) == 0) {
        initial.add(step());
        join(List.of(region(initial.get(1), 1)), List.of(initial.get(1)));
      }
    }
    for (List<Control> controls : steps) {
      control(controls);
    }
    for (String name : BODIES) {
      actions.add(new Action(name, IntStream.rangeClosed(0, random.nextInt(2)).mapToObj(unused -> assignment())
          .toList()));
    }
    Collections.shuffle(transitions, random);
  }

  // ---- what is drawn

  private int step() {
    steps.add(new ArrayList<>());
    return steps.size() - 1;
  }

  private void join(List<Integer> from, List<Integer> to) {
    transitions.add(new Transition(random.nextInt(3) == 0 ? random.nextInt(4) : 0, place(), from, to, truth(2)));
  }

  /** How far from the left: different for each. */
  private int place() {
    int place = random.nextInt(10_000);
    return places.putIfAbsent(place, place) == null ? place : place();
  }

  private int region(int from, int depth) {
    int last = from;
    for (int items = 1 + random.nextInt(2); items > 0; items--) {
      last = item(last, steps.size() >= most ? 0 : depth);
    }
    return last;
  }

  /** Draws what follows a step; the last step of it. */
  private int item(int from, int depth) {
    int kind = depth == 0 ? 0 : random.nextInt(4);
    if (kind == 0) {
      int next = step();
      join(List.of(from), List.of(next));
      return next;
    }
    if (kind == 1) {
      int last = region(from, depth - 1);
      int next = step();
      join(List.of(last), List.of(from));
      join(List.of(last), List.of(next));
      return next;
    }
    List<Integer> first = new ArrayList<>();
    List<Integer> ends = new ArrayList<>();
    for (int branches = 2 + random.nextInt(2); branches > 0; branches--) {
      first.add(step());
      ends.add(region(first.get(first.size() - 1), depth - 1));
    }
    int next = step();
    if (kind == 2) {
      first.forEach(step -> join(List.of(from), List.of(step)));
      ends.forEach(step -> join(List.of(step), List.of(next)));
      if (random.nextInt(3) == 0) {
        join(List.of(from), List.of(next));
      }
    } else {
      join(List.of(from), first);
      join(ends, List.of(next));
    }
    return next;
  }

  /** Transitions from any steps to any: steps may be entered while they are active, and shared by convergences. */
  private void free() {
    while (steps.size() < most / 2 + 2) {
      step();
    }
    for (int i = 0; i < steps.size() + 2; i++) {
      join(some(), some());
    }
    IntStream.range(1, steps.size()).filter(unused -> random.nextInt(4) == 0).forEach(initial::add);
  }

  private List<Integer> some() {
    return IntStream.rangeClosed(0, random.nextInt(3) / 2 + random.nextInt(2))
        .mapToObj(unused -> random.nextInt(steps.size())).distinct().toList();
  }

  private void control(List<Control> controls) {
    List<String> timed = new ArrayList<>();
    for (int count = random.nextInt(4); count > 0; count--) {
      Qualifier qualifier = one(List.of(Qualifier.values()));
      boolean time = List.of(Qualifier.L, Qualifier.D, Qualifier.SD, Qualifier.DS, Qualifier.SL).contains(qualifier);
      String target = one(random.nextBoolean() ? CONTROLLED : BODIES);
      if (!time || !timed.contains(target)) {
        controls.add(new Control(qualifier, target, time ? duration() : null));
        timed.addAll(time ? List.of(target) : List.of());
      }
    }
  }

  private Term duration() {
    long time = 5 * random.nextInt(11);
    return random.nextInt(6) == 0 ? variable(TIME) : new Term("T#" + time + "ms", chart -> time * 1_000_000);
  }

  private Map.Entry<String, Term> assignment() {
    if (random.nextInt(3) == 0) {
      return Map.entry(one(List.of("m0", "q0")), truth(2));
    }
    String number = one(NUMBERS);
    int by = 1 + random.nextInt(7);
    Term from = variable(one(NUMBERS));
    return Map.entry(number, random.nextBoolean()
        ? new Term(from.text() + " + " + by, chart -> (long) (short) (from.value().apply(chart) + by))
        : new Term(from.text() + " * " + by, chart -> (long) (short) (from.value().apply(chart) * by)));
  }

  private <T> T one(List<T> of) {
    return of.get(random.nextInt(of.size()));
  }

  private static Term variable(String name) {
    return new Term(name, chart -> chart.variable(name));
  }

  private Term truth(int depth) {
    switch (random.nextInt(depth == 0 ? 7 : 11)) {
      case 0, 1, 2, 3:
        return variable(one(TRUTHS));
      case 4: {
        int step = random.nextInt(steps.size());
        return new Term("S" + step + ".X", chart -> chart.active(step));
      }
      case 5: {
        int step = random.nextInt(steps.size());
        long time = 5 * random.nextInt(9);
        return new Term("(S" + step + ".T >= T#" + time + "ms)", chart -> chart.elapsed(step) >= time * 1_000_000
            ? 1L : 0L);
      }
      case 6: {
        int bound = random.nextInt(20);
        Term number = variable(one(NUMBERS));
        return new Term("(" + number.text() + " > " + bound + ")", chart -> number.value().apply(chart) > bound ? 1L
            : 0L);
      }
      case 7, 8: {
        Term operand = truth(depth - 1);
        return new Term("NOT " + operand.text(), chart -> 1 - operand.value().apply(chart));
      }
      default: {
        Term left = truth(depth - 1);
        Term right = truth(depth - 1);
        boolean both = random.nextBoolean();
        return new Term("(" + left.text() + (both ? " AND " : " OR ") + right.text() + ")", chart -> both
            ? left.value().apply(chart) & right.value().apply(chart)
            : left.value().apply(chart) | right.value().apply(chart));
      }
    }
  }

  // ---- as both sides take it

  static String variables() {
    return String.join(" ", TRUTHS) + " : BOOL; " + String.join(" ", NUMBERS) + " : INT; " + TIME + " : TIME";
  }

  /** The lines of a {@link ChartXml}; some ways back are drawn as jumps. */
  List<String> lines() {
    Random jumps = new Random(steps.size());
    List<String> lines = new ArrayList<>();
    for (int i = 0; i < steps.size(); i++) {
      lines.add((initial.contains(i) ? "initial S" : "step S") + i + steps.get(i).stream().map(it -> " "
          + it.qualifier() + ":" + it.target() + (it.time() == null ? "" : ":" + it.time().text()))
          .collect(Collectors.joining()));
    }
    Supplier<String> jump = () -> jumps.nextInt(3) == 0 ? "^" : "";
    for (Transition each : transitions) {
      lines.add("trans " + (each.priority() == 0 ? "" : each.priority() + ">") + names(each.from(), () -> "") + " -> "
          + names(each.to(), jump) + " : " + each.condition().text() + " @" + (int) each.left());
    }
    for (Action action : actions) {
      lines.add("action " + action.name() + " : " + action.body().stream().map(it -> it.getKey() + " := "
          + it.getValue().text() + ";").collect(Collectors.joining(" ")));
    }
    return lines;
  }

  private static String names(List<Integer> steps, Supplier<String> before) {
    return steps.stream().map(step -> before.get() + "S" + step).collect(Collectors.joining(","));
  }

  /** Names of all that is compared after a scan, as a machine has them. */
  List<String> compared() {
    Stream<String> flags = BODIES.stream().filter(name -> steps.stream().flatMap(List::stream).anyMatch(it ->
        it.target().equals(name))).flatMap(name -> Stream.of(name + ".Q", name + ".A"));
    return Stream.of(Stream.of(TRUTHS, NUMBERS).flatMap(List::stream), IntStream.range(0, steps.size()).boxed()
        .flatMap(step -> Stream.of("S" + step + ".X", "S" + step + ".T")), flags).flatMap(it -> it).toList();
  }

  /** The interpreter with all variables 0. */
  NaiveCharts naive(Map<String, Long> variables) {
    Stream.of(TRUTHS, NUMBERS, List.of(TIME)).flatMap(List::stream).forEach(name -> variables.put(name, 0L));
    return new NaiveCharts(IntStream.range(0, steps.size()).mapToObj(i -> new Step("S" + i, initial.contains(i),
        steps.get(i))).toList(), transitions, actions, variables);
  }
}

package dev.pawl.logic.drawn;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.EnumMap;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.function.Function;
import java.util.stream.Stream;

/**
 * An interpreter of charts that walks them: which steps are marked, which transitions they enable, and for each action
 * the function block ACTION_CONTROL, with an input for each qualifier. It is written from the rules of IEC 61131-3 for
 * evolution and for the control of actions (from memory: its text was not at hand), and from DRAWN.md where these
 * leave something open. It knows nothing of the translator.
 */
final class NaiveCharts {

  /** The qualifiers, each an input of the block. */
  enum Qualifier {
    N, R, S, L, D, P, P1, P0, SD, DS, SL
  }

  /** A step with what it controls. */
  record Step(String name, boolean initial, List<Control> controls) {}

  /** An action, or a variable, that a step controls; the time in nanoseconds, or in a variable of that name. */
  record Control(Qualifier qualifier, String target, Term time) {}

  /** A transition between steps, by their indexes. */
  record Transition(long priority, double left, List<Integer> from, List<Integer> to, Term condition) {}

  /** A body: variables, each with what it becomes. */
  record Action(String name, List<Map.Entry<String, Term>> body) {}

  /** A value as text, and worked out. */
  record Term(String text, Function<NaiveCharts, Long> value) {}

  /** What ACTION_CONTROL remembers of one action. */
  private static final class ActionControl {
    private final Map<Qualifier, Boolean> inputs = new EnumMap<>(Qualifier.class);
    private long time;
    private boolean storedS;
    private boolean storedSD;
    private boolean storedDS;
    private boolean storedSL;
    private final Delay delayL = new Delay();
    private final Delay delayD = new Delay();
    private final Delay delaySD = new Delay();
    private final Delay delayDS = new Delay();
    private final Delay delaySL = new Delay();
    private boolean p;
    private boolean p1;
    private boolean p0;
    private boolean q;
    private boolean last;
    private boolean pulse;

    private boolean in(Qualifier qualifier) {
      return inputs.getOrDefault(qualifier, false);
    }

    private void evaluate(long now) {
      boolean reset = in(Qualifier.R);
      boolean lasted = delayDS.over(in(Qualifier.DS), time, now);
      storedS = !reset && (in(Qualifier.S) || storedS);
      storedSD = !reset && (in(Qualifier.SD) || storedSD);
      storedDS = !reset && (lasted || storedDS);
      storedSL = !reset && (in(Qualifier.SL) || storedSL);
      boolean before = q;
      q = in(Qualifier.N) || storedS;
      q |= !delayL.over(in(Qualifier.L), time, now) && in(Qualifier.L);
      q |= delayD.over(in(Qualifier.D), time, now);
      q |= in(Qualifier.P) && !p;
      q |= delaySD.over(storedSD, time, now);
      q |= storedDS;
      q |= !delaySL.over(storedSL, time, now) && storedSL;
      q &= !reset;
      last = before && !q;
      pulse = in(Qualifier.P1) && !p1 || !in(Qualifier.P0) && p0;
      p = in(Qualifier.P);
      p1 = in(Qualifier.P1);
      p0 = in(Qualifier.P0);
    }
  }

  /** The timer TON. */
  private static final class Delay {
    private boolean running;
    private boolean over;
    private long since;

    boolean over(boolean in, long time, long now) {
      if (in && !running) {
        since = now;
      }
      running = in;
      over = in && (over || now - since >= time);
      return over;
    }
  }

  private final List<Step> steps;
  private final List<Transition> transitions;
  private final List<Action> actions;
  private final Map<String, Long> variables;
  private final Map<String, ActionControl> controls = new LinkedHashMap<>();
  private final boolean[] active;
  private final long[] since;
  private final long[] elapsed;
  private boolean begun;

  /** @param variables all that terms name, by which the chart reads and writes */
  NaiveCharts(List<Step> steps, List<Transition> transitions, List<Action> actions, Map<String, Long> variables) {
    this.steps = steps;
    this.transitions = transitions.stream().sorted(Comparator.comparingLong(Transition::priority)
        .thenComparingDouble(Transition::left)).toList();
    this.actions = actions;
    this.variables = variables;
    this.active = new boolean[steps.size()];
    this.since = new long[steps.size()];
    this.elapsed = new long[steps.size()];
    Stream.concat(actions.stream().map(Action::name), steps.stream().flatMap(step -> step.controls().stream())
        .map(Control::target)).forEach(name -> controls.computeIfAbsent(name, unused -> new ActionControl()));
  }

  long variable(String name) {
    return variables.get(name);
  }

  long active(int step) {
    return active[step] ? 1 : 0;
  }

  /** How long a step has been active, or last was; nanoseconds. */
  long elapsed(int step) {
    return elapsed[step];
  }

  /** A variable, or {@code S1.X}, or {@code S1.T}, or {@code act.Q}, or {@code act.A}. */
  long value(String name) {
    Long value = variables.get(name);
    if (value != null) {
      return value;
    }
    ActionControl control = controls.get(name.substring(0, name.indexOf('.')));
    if (control != null) {
      return control.q || control.pulse || name.endsWith("A") && control.last ? 1 : 0;
    }
    int step = Integer.parseInt(name.substring(1, name.indexOf('.')));
    return name.endsWith("X") ? active(step) : elapsed(step);
  }

  void scan(long now) {
    if (begun) {
      for (int step = 0; step < active.length; step++) {
        elapsed[step] = active[step] ? now - since[step] : elapsed[step];
      }
      evolve(now);
    } else {
      for (int step = 0; step < active.length; step++) {
        active[step] = steps.get(step).initial();
        since[step] = now;
      }
      begun = true;
    }
    act(now);
  }

  private void evolve(long now) {
    Set<Integer> taken = new HashSet<>();
    List<Transition> cleared = new ArrayList<>();
    for (Transition transition : transitions) {
      if (transition.from().stream().allMatch(step -> active[step] && !taken.contains(step))
          && transition.condition().value().apply(this) != 0) {
        cleared.add(transition);
        taken.addAll(transition.from());
      }
    }
    cleared.forEach(transition -> transition.from().forEach(step -> active[step] = false));
    for (Transition transition : cleared) {
      for (int step : transition.to()) {
        active[step] = true;
        since[step] = now;
        elapsed[step] = 0;
      }
    }
  }

  private void act(long now) {
    Map<ActionControl, Boolean> timed = new LinkedHashMap<>();
    controls.values().forEach(control -> control.inputs.clear());
    for (int i = 0; i < active.length; i++) {
      for (Control control : steps.get(i).controls()) {
        ActionControl action = controls.get(control.target());
        action.inputs.merge(control.qualifier(), active[i], Boolean::logicalOr);
        if (active[i] && control.time() != null && timed.putIfAbsent(action, true) == null) {
          action.time = control.time().value().apply(this);
        }
      }
    }
    controls.values().forEach(control -> control.evaluate(now));
    for (Action action : actions) {
      ActionControl control = controls.get(action.name());
      if (control.q || control.last || control.pulse) {
        action.body().forEach(each -> variables.put(each.getKey(), each.getValue().value().apply(this)));
      }
    }
    controls.forEach((name, control) -> {
      if (actions.stream().noneMatch(action -> action.name().equals(name))) {
        variables.put(name, control.q || control.pulse ? 1L : 0L);
      }
    });
  }
}

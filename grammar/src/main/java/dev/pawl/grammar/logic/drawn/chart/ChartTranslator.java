package dev.pawl.grammar.logic.drawn.chart;

import dev.pawl.grammar.logic.drawn.Item;
import dev.pawl.grammar.logic.drawn.Shown;
import dev.pawl.grammar.logic.drawn.network.Hidden;
import dev.pawl.grammar.logic.drawn.network.NetworkTranslator;
import dev.pawl.grammar.logic.drawn.network.Reads;
import dev.pawl.grammar.logic.drawn.network.Surroundings;
import dev.pawl.grammar.logic.drawn.network.Terms;
import dev.pawl.grammar.logic.drawn.tree.Body;
import dev.pawl.grammar.logic.drawn.tree.Sequence;
import dev.pawl.grammar.logic.drawn.tree.Sequence.Step;
import dev.pawl.grammar.logic.drawn.tree.Sequence.Transition;
import dev.pawl.grammar.logic.tree.Expression;
import dev.pawl.grammar.logic.tree.Initializer;
import dev.pawl.grammar.logic.tree.Name;
import dev.pawl.grammar.logic.tree.Statement;
import dev.pawl.grammar.logic.tree.TypeSpecification;
import dev.pawl.grammar.source.NearName;
import dev.pawl.grammar.source.Position;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.function.Consumer;
import java.util.function.Function;
import java.util.stream.Collectors;
import java.util.stream.Stream;

/**
 * The translator of a sequential function chart. In a scan, first every transition that is enabled and whose
 * condition holds is cleared, all of them at once; then the actions of the steps that are active now run. In the
 * first scan nothing is cleared: the initial steps are active.
 */
public final class ChartTranslator {

  private final Sequence sequence;
  private final Surroundings around;
  private final Hidden hidden;
  private final Map<String, Step> steps = new LinkedHashMap<>();
  private final Map<String, Name> timers = new LinkedHashMap<>();
  private final Map<Transition, NetworkTranslator.Given> beside = new HashMap<>();
  private final List<Statement> out = new ArrayList<>();
  private Optional<Shown.Chart> shown = Optional.empty();

  private ChartTranslator(Sequence sequence, Surroundings around) {
    this.sequence = sequence;
    this.around = around;
    this.hidden = around.hidden();
  }

  /**
   * The statements that mean the same as a chart.
   *
   * @param bodies translates the bodies of an action
   */
  public static List<Statement> translate(Sequence sequence, Surroundings around,
      Function<Sequence.Action, List<Statement>> bodies) {
    ChartTranslator chart = new ChartTranslator(sequence, around);
    if (chart.clashes()) {
      return List.of();
    }
    chart.steps();
    chart.times();
    chart.look();
    chart.transitions();
    chart.lookAfter();
    chart.out.addAll(new ActionControl(sequence, around, bodies).statements());
    return chart.out;
  }

  // ---- steps

  /** Whether a step has the name of a variable: whatever names either would be wrong then. */
  private boolean clashes() {
    List<Step> clashing = sequence.steps().stream().filter(step -> around.declares(step.name())).toList();
    for (Step step : clashing) {
      around.legend().note(step.name().position(), around.unit().name() + ", step " + step.name());
      around.error(step.name().position(), "the step " + step.name() + " has the name of a variable",
          "choose another: " + step.name() + ".X and " + step.name() + ".T tell of the step");
    }
    return !clashing.isEmpty();
  }

  private void steps() {
    for (Step step : sequence.steps()) {
      Position position = step.name().position();
      around.legend().note(position, around.unit().name() + ", " + (step.name().text().isEmpty() ? "a step"
          : "step " + step.name()));
      if (step.name().text().isEmpty()) {
        continue;
      }
      if (steps.putIfAbsent(step.name().key(), step) != null) {
        around.error(position, "there is another step " + step.name() + " in this chart", "");
        continue;
      }
      hidden.declare(step.name(), new TypeSpecification.Structure(List.of(field("X", "BOOL", position),
          field("T", "TIME", position)), position), step.initial() ? Optional.of(new Initializer.Fields(List.of(
              new Initializer.FieldValue(new Name("X", position), new Initializer.Value(Terms.truth(true, position)))),
              position)) : Optional.empty());
      timers.put(step.name().key(), hidden.kept("time", "TON", position));
      around.legend().list(() -> Item.alone(position.line(), around.unit().name() + ", step " + step.name(), "step "
          + step.name(), step.initial() ? "initial" : ""));
    }
    if (sequence.steps().isEmpty()) {
      around.error(sequence.position(), "the chart of " + around.unit().name() + " has no steps",
          "draw the step at which it begins, as the initial one");
    } else if (sequence.steps().stream().noneMatch(Step::initial)) {
      around.legend().note(sequence.position(), around.unit().name() + ", chart");
      around.error(sequence.position(), "the chart has no initial step, so that no step of it is ever active",
          "mark the step at which it begins as the initial one");
    }
  }

  static TypeSpecification.Field field(String name, String type, Position position) {
    return new TypeSpecification.Field(new Name(name, position), new TypeSpecification.Named(new Name(type, position)),
        Optional.empty());
  }

  static Expression part(Name owner, String part, Position position) {
    return new Expression.Member(Terms.name(owner), new Name(part, position));
  }

  // ---- transitions

  private void transitions() {
    Position start = sequence.position();
    Name begun = hidden.kept("begun", "BOOL", start);
    List<Transition> transitions = new ArrayList<>(sequence.transitions());
    transitions.sort(Comparator.comparingLong(Transition::priority));
    beside(transitions);
    List<Name> cleared = new ArrayList<>();
    for (Transition transition : transitions) {
      cleared.add(clears(transition, transitions.subList(0, cleared.size()), cleared, begun));
    }
    for (int i = 0; i < transitions.size(); i++) {
      Transition transition = transitions.get(i);
      leave(transition, cleared.get(i));
    }
    for (int i = 0; i < transitions.size(); i++) {
      enter(transitions.get(i), cleared.get(i));
    }
    out.add(Terms.assign(Terms.name(begun), Terms.truth(true, start), start));
  }

  /**
   * A wire that carries whether a transition is cleared: enabled, of those that share a step the first, and its
   * condition.
   */
  private Name clears(Transition transition, List<Transition> earlier, List<Name> cleared, Name begun) {
    Position position = transition.position();
    String way = "transition" + named(" from ", transition.from()) + named(" to ", transition.to());
    around.legend().note(position, around.unit().name() + ", " + way);
    NetworkTranslator.Given given = given(transition);
    around.legend().list(() -> new Item(position.line(), around.unit().name() + ", " + way, way, words(transition),
        given.wires(), List.of(position.line())));
    Expression enabled = Terms.name(begun);
    for (String from : transition.from()) {
      Optional<Step> step = step(from, position);
      if (step.isPresent()) {
        enabled = Terms.and(enabled, part(step.get().name(), "X", position), position);
      }
    }
    for (int i = 0; i < earlier.size(); i++) {
      if (earlier.get(i).from().stream().anyMatch(transition.from()::contains)) {
        enabled = Terms.and(enabled, Terms.not(Terms.name(cleared.get(i)), position), position);
      }
    }
    Expression condition = Terms.required(given.value(), "BOOL", "the condition of a transition");
    shown.ifPresent(chart -> paths(condition, path -> 
        chart.operands().computeIfAbsent(transition, unused -> new LinkedHashMap<>()).put(path.getKey(),
            look(path.getValue(), position))));
    Name name = hidden.fresh("cleared", position);
    out.add(new Statement.Wire(name, Terms.and(transition.negated() ? Terms.not(condition, position) : condition,
        Terms.truth(true, position), position), Optional.of(enabled), position));
    shown.ifPresent(chart -> chart.cleared().put(transition, look(Terms.name(name), position)));
    return name;
  }

  private String named(String word, List<String> steps) {
    List<String> named = steps.stream().map(this::spelled).filter(step -> !step.isEmpty()).toList();
    return named.isEmpty() ? "" : word + String.join(", ", named);
  }

  private static String words(Transition transition) {
    return Stream.of(transition.priority() > 0 ? "priority " + transition.priority() : "",
        transition.negated() ? "negated" : "", transition.condition() instanceof Sequence.Expressed expressed
            ? "on " + expressed.expression().text().strip().replaceAll("\\s+", " ") : "")
        .filter(word -> !word.isEmpty()).collect(Collectors.joining(", "));
  }

  private NetworkTranslator.Given given(Transition transition) {
    return transition.condition().match(
        read -> written(read.expression()),
        expressed -> written(around.expression(expressed.expression(), "the condition of the transition")),
        next -> beside.get(transition),
        drawn -> NetworkTranslator.values(drawn.elements(), List.of(new NetworkTranslator.Taken(drawn.pin(),
            transition.position())), around, out).get(0));
  }

  private static NetworkTranslator.Given written(Expression condition) {
    return new NetworkTranslator.Given(condition, List.of());
  }

  /** Lets the diagram beside the steps run, once a scan, and keeps what it gives to transitions. */
  private void beside(List<Transition> transitions) {
    List<Transition> taking = transitions.stream().filter(it -> it.condition() instanceof Sequence.Beside).toList();
    List<NetworkTranslator.Given> values = NetworkTranslator.values(sequence.diagram(), taking.stream()
        .map(it -> new NetworkTranslator.Taken(((Sequence.Beside) it.condition()).pin(), it.position())).toList(),
        around, out);
    for (int i = 0; i < values.size(); i++) {
      beside.put(taking.get(i), values.get(i));
    }
  }

  private String spelled(String key) {
    return Optional.ofNullable(steps.get(key)).map(step -> step.name().text()).orElse(key);
  }

  private Optional<Step> step(String key, Position position) {
    Optional<Step> step = Optional.ofNullable(steps.get(key));
    if (step.isEmpty() && !key.isEmpty()) {
      around.error(position, "there is no step " + key + " in this chart", NearName.hint(key, steps.values().stream()
          .map(each -> each.name().text()).toList()).orElse(""));
    }
    return step;
  }

  private void leave(Transition transition, Name cleared) {
    Position position = transition.position();
    List<Statement> body = new ArrayList<>();
    for (String from : transition.from()) {
      Optional.ofNullable(steps.get(from)).ifPresent(step -> body.add(Terms.assign(part(step.name(), "X", position),
          Terms.truth(false, position), position)));
    }
    out.addAll(Terms.when(Terms.name(cleared), body, position));
  }

  private void enter(Transition transition, Name cleared) {
    Position position = transition.position();
    List<Statement> body = new ArrayList<>();
    for (String to : transition.to()) {
      step(to, position).ifPresent(step -> {
        body.add(Terms.assign(part(step.name(), "X", position), Terms.truth(true, position), position));
        body.add(timed(step, false, position));
        body.add(timed(step, true, position));
        body.add(time(step, position));
      });
    }
    out.addAll(Terms.when(Terms.name(cleared), body, position));
  }

  // ---- what is to be seen

  private void look() {
    Set<String> targets = new LinkedHashSet<>();
    for (Step step : sequence.steps()) {
      step.associations().stream().filter(it -> around.shown().wants(it.position()))
          .forEach(it -> targets.add(it.target().text().strip().toUpperCase(Locale.ROOT)));
    }
    sequence.actions().stream().filter(action -> action.bodies().stream().anyMatch(this::isWanted))
        .forEach(action -> targets.add(action.name().key()));
    if (!targets.isEmpty()) {
      shown = Optional.of(around.shown().chart(around.unit().name().text(), sequence, targets));
      Position position = sequence.position();
      out.addAll(around.seen(new Name(shown.get().evaluated(), position), Terms.truth(true, position), position));
    }
  }

  private boolean isWanted(Body body) {
    return body.accept(new Body.Visitor<Boolean>() {
      @Override
      public Boolean visit(Body.Written e) {
        return around.shown().wants(e.text().start(), (int) e.text().text().lines().count());
      }

      @Override
      public Boolean visit(Body.Networks e) {
        return e.elements().stream().anyMatch(it -> around.shown().wants(it.head().position()));
      }

      @Override
      public Boolean visit(Body.Chart e) {
        return false;
      }
    });
  }

  private void lookAfter() {
    shown.ifPresent(chart -> steps.forEach((key, step) -> chart.steps().put(key, Stream.of("X", "T")
        .map(part -> look(part(step.name(), part, step.name().position()), step.name().position())).toList())));
  }

  private String look(Expression value, Position position) {
    Name name = around.shown().name(position);
    out.addAll(around.seen(name, value, position));
    return name.text();
  }

  /** Each variable that an expression reads, with its name. */
  private static void paths(Expression expression, Consumer<Map.Entry<String, Expression>> each) {
    if (Reads.isPath(expression)) {
      each.accept(Map.entry(Reads.spelled(expression), expression));
    } else if (expression instanceof Expression.Required required) {
      paths(required.operand(), each);
    } else if (expression instanceof Expression.Unary unary) {
      paths(unary.operand(), each);
    } else if (expression instanceof Expression.Binary binary) {
      paths(binary.left(), each);
      paths(binary.right(), each);
    }
  }

  // ---- the time for which a step is active

  private Statement timed(Step step, boolean running, Position position) {
    return new Statement.Invocation(new Expression.Call(Terms.name(timers.get(step.name().key())), List.of(
        new Expression.Input(new Name("IN", position), Terms.truth(running, position)),
        new Expression.Input(new Name("PT", position), new Expression.TimeLiteral("TIME", Long.MAX_VALUE, position))),
        position));
  }

  private Statement time(Step step, Position position) {
    return Terms.assign(part(step.name(), "T", position), part(timers.get(step.name().key()), "ET", position),
        position);
  }

  private void times() {
    for (Step step : steps.values()) {
      Position position = step.name().position();
      out.addAll(Terms.when(part(step.name(), "X", position), List.of(timed(step, true, position),
          time(step, position)), position));
    }
  }
}

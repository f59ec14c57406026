package dev.pawl.grammar.logic.drawn.chart;

import dev.pawl.grammar.logic.drawn.DrawnWords;
import dev.pawl.grammar.logic.drawn.Item;
import dev.pawl.grammar.logic.drawn.network.Hidden;
import dev.pawl.grammar.logic.drawn.network.Surroundings;
import dev.pawl.grammar.logic.drawn.network.Terms;
import dev.pawl.grammar.logic.drawn.network.Writers;
import dev.pawl.grammar.logic.drawn.tree.Sequence;
import dev.pawl.grammar.logic.drawn.tree.Sequence.Association;
import dev.pawl.grammar.logic.drawn.tree.Sequence.Qualifier;
import dev.pawl.grammar.logic.parse.Fragment;
import dev.pawl.grammar.logic.tree.Expression;
import dev.pawl.grammar.logic.tree.Name;
import dev.pawl.grammar.logic.tree.Statement;
import dev.pawl.grammar.logic.tree.TypeSpecification;
import dev.pawl.grammar.source.Position;
import java.util.ArrayList;
import java.util.EnumMap;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.function.Function;

/**
 * The control of actions: what the steps that are associated with an action make of it, by the qualifiers of all these
 * associations together. A variable is TRUE while it is active. The body of an action runs while it is active, and
 * once more when it no longer is; that of P1 and P0 once.
 */
final class ActionControl {

  private final Sequence sequence;
  private final Surroundings around;
  private final Hidden hidden;
  private final Function<Sequence.Action, List<Statement>> bodies;
  private final Map<String, List<Link>> targets = new LinkedHashMap<>();
  private final List<Statement> out = new ArrayList<>();

  /** An association with the step that it belongs to. */
  private record Link(Name step, Association association) {}

  ActionControl(Sequence sequence, Surroundings around, Function<Sequence.Action, List<Statement>> bodies) {
    this.sequence = sequence;
    this.around = around;
    this.hidden = around.hidden();
    this.bodies = bodies;
    sequence.actions().forEach(action -> targets.put(action.name().key(), new ArrayList<>()));
    for (Sequence.Step step : sequence.steps()) {
      for (Association association : step.associations()) {
        targets.computeIfAbsent(association.target().text().strip().toUpperCase(Locale.ROOT),
            unused -> new ArrayList<>()).add(new Link(step.name(), association));
      }
    }
  }

  /** Works out first what is active, of all actions, and then lets them act. */
  List<Statement> statements() {
    List<Runnable> acting = new ArrayList<>();
    targets.forEach((target, links) -> {
      if (!links.isEmpty()) {
        acting.add(control(target, links));
      }
    });
    acting.forEach(Runnable::run);
    return out;
  }

  private static Expression active(Link link) {
    return ChartTranslator.part(link.step(), "X", link.association().position());
  }

  private static boolean pulses(Qualifier qualifier) {
    return qualifier == Qualifier.P1 || qualifier == Qualifier.P0;
  }

  private Runnable control(String target, List<Link> links) {
    Position position = links.get(0).association().position();
    for (Link link : links) {
      Association association = link.association();
      String name = association.target().text().strip();
      String place = around.unit().name() + ", step " + link.step() + ", action " + name;
      around.legend().note(association.position(), place);
      around.legend().list(() -> Item.alone(association.position().line(), place,
          "action " + name + " of " + link.step(), association.qualifier()
              + association.time().map(each -> " " + DrawnWords.text(each)).orElse("")));
    }
    Map<Qualifier, Expression> inputs = new EnumMap<>(Qualifier.class);
    links.forEach(link -> inputs.merge(link.association().qualifier(), active(link), (left, right) ->
        either(left, right, link.association().position())));
    Expression time = time(links, position);
    Name stopped = wire("reset", inputs.getOrDefault(Qualifier.R, Terms.truth(false, position)), position);
    Expression on = Terms.truth(false, position);
    Expression pulses = Terms.truth(false, position);
    for (Map.Entry<Qualifier, Expression> input : inputs.entrySet()) {
      Expression given = given(input.getKey(), input.getValue(), Terms.name(stopped), time, position);
      if (pulses(input.getKey())) {
        pulses = either(pulses, given, position);
      } else {
        on = either(on, given, position);
      }
    }
    Name acts = wire("active", Terms.and(on, Terms.not(Terms.name(stopped), position), position), position);
    Name once = wire("pulse", pulses, position);
    Optional<Sequence.Action> action = sequence.actions().stream().filter(it -> it.name().key().equals(target))
        .findFirst();
    if (action.isEmpty()) {
      return () -> variable(links.get(0).association().target(), either(Terms.name(acts), Terms.name(once), position),
          position);
    }
    boolean held = !inputs.keySet().stream().allMatch(ActionControl::pulses);
    Expression runs = either(Terms.name(acts), Terms.name(once), position);
    if (held) {
      Name before = hidden.kept("before", "BOOL", position);
      runs = Terms.name(wire("runs", either(runs, Terms.name(before), position), position));
      out.add(Terms.assign(Terms.name(before), Terms.name(acts), position));
    }
    flags(action.get().name(), either(Terms.name(acts), Terms.name(once), position), runs, position);
    Expression condition = runs;
    return () -> out.addAll(Terms.when(condition, bodies.apply(action.get()), position));
  }

  /**
   * Declares and gives the flags of an action that has a name: Q is TRUE while it is active, A while its body runs, and
   * so once more (from memory of the standard). A variable of its name stays what it is.
   */
  private void flags(Name action, Expression active, Expression runs, Position position) {
    if (action.text().indexOf(' ') < 0 && !around.declares(action)) {
      hidden.declare(action, new TypeSpecification.Structure(List.of(ChartTranslator.field("Q", "BOOL", position),
          ChartTranslator.field("A", "BOOL", position)), position), Optional.empty());
      out.add(Terms.assign(ChartTranslator.part(action, "Q", position), active, position));
      out.add(Terms.assign(ChartTranslator.part(action, "A", position), runs, position));
    }
  }

  private void variable(Fragment target, Expression value, Position position) {
    if (!target.text().isBlank()) {
      around.target(target, "the action").ifPresent(it -> {
        around.writers().note(it, Writers.Manner.ALWAYS, Optional.empty(), position);
        out.add(Terms.assign(it, value, position));
      });
    }
  }

  private Expression either(Expression left, Expression right, Position position) {
    return left instanceof Expression.BooleanLiteral literal && !literal.value() ? right
        : Terms.or(left, right, position);
  }

  private Name wire(String kind, Expression value, Position position) {
    Name name = hidden.fresh(kind, position);
    out.add(new Statement.Wire(name, value, Optional.empty(), position));
    return name;
  }

  /**
   * What the steps with one qualifier contribute, by the function block ACTION_CONTROL of the standard (from memory):
   * it has one input for each qualifier, which is TRUE while any of these steps is active.
   */
  private Expression given(Qualifier qualifier, Expression input, Expression reset, Expression time,
      Position position) {
    return switch (qualifier) {
      case N -> input;
      case R -> Terms.truth(false, position);
      case S -> stored(input, reset, position);
      case L -> Terms.and(input, Terms.not(elapsed(input, time, position), position), position);
      case D -> elapsed(input, time, position);
      case P, P1 -> edge(input, true, position);
      case P0 -> edge(input, false, position);
      case SD -> elapsed(stored(input, reset, position), time, position);
      case DS -> stored(elapsed(input, time, position), reset, position);
      case SL -> {
        Expression stored = stored(input, reset, position);
        yield Terms.and(stored, Terms.not(elapsed(stored, time, position), position), position);
      }
    };
  }

  /** The one time of the action, read while a step states it: of several, that of the step that is active, or was. */
  private Expression time(List<Link> links, Position position) {
    List<Statement.Branch> branches = new ArrayList<>();
    Expression none = new Expression.TimeLiteral("TIME", 0, position);
    Name duration = null;
    Set<String> stating = new HashSet<>();
    for (Link link : links) {
      Association association = link.association();
      if (!association.qualifier().timed()) {
        continue;
      }
      if (!stating.add(link.step().key())) {
        around.error(association.position(), "the step " + link.step() + " states a second time for this action",
            "an action has one time: leave it at one of the qualifiers, or draw two actions");
        return none;
      }
      if (association.time().isEmpty()) {
        around.error(association.position(), "an action with the qualifier " + association.qualifier()
            + " needs a time", "write one such as T#2s");
        return none;
      }
      if (association.time().get() instanceof Expression.TimeLiteral
          && links.stream().filter(it -> it.association().qualifier().timed()).count() == 1) {
        return association.time().get();
      }
      if (duration == null) {
        duration = hidden.kept("duration", "TIME", position);
      }
      branches.add(new Statement.Branch(active(link), List.of(Terms.assign(Terms.name(duration),
          Terms.required(association.time().get(), "TIME", "the time of an action"), association.position())),
          association.position()));
    }
    if (duration == null) {
      return none;
    }
    out.add(new Statement.If(branches, List.of(), position));
    return Terms.name(duration);
  }

  private Expression stored(Expression set, Expression reset, Position position) {
    Name name = hidden.kept("stored", "BOOL", position);
    out.add(Terms.assign(Terms.name(name), Terms.and(Terms.or(Terms.name(name), set, position),
        Terms.not(reset, position), position), position));
    return Terms.name(name);
  }

  private Expression edge(Expression now, boolean rising, Position position) {
    Name before = hidden.kept("before", "BOOL", position);
    Name edge = wire("edge", rising ? Terms.and(now, Terms.not(Terms.name(before), position), position)
        : Terms.and(Terms.not(now, position), Terms.name(before), position), position);
    out.add(Terms.assign(Terms.name(before), now, position));
    return Terms.name(edge);
  }

  private Expression elapsed(Expression running, Expression time, Position position) {
    Name timer = hidden.kept("timer", "TON", position);
    out.add(new Statement.Invocation(new Expression.Call(Terms.name(timer), List.of(
        new Expression.Input(new Name("IN", position), running),
        new Expression.Input(new Name("PT", position), time)), position)));
    return ChartTranslator.part(timer, "Q", position);
  }
}

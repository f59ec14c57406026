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
import dev.pawl.grammar.source.Position;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
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

  private Expression active(Link link) {
    return ChartTranslator.part(link.step(), "X", link.association().position());
  }

  private Runnable control(String target, List<Link> links) {
    Position position = links.get(0).association().position();
    for (Link link : links) {
      Association association = link.association();
      String name = association.target().text().strip();
      String place = around.unit().name() + ", step " + link.step() + ", action " + name;
      around.legend().note(association.position(), place);
      around.legend().list(Item.alone(association.position().line(), place, "action " + name + " of " + link.step(),
          association.qualifier() + association.time().map(time -> " " + DrawnWords.text(time)).orElse("")));
    }
    Expression reset = Terms.truth(false, position);
    for (Link link : links) {
      if (link.association().qualifier() == Qualifier.R) {
        reset = either(reset, active(link), position);
      }
    }
    Name stopped = wire("reset", reset, position);
    Expression on = Terms.truth(false, position);
    Expression pulses = Terms.truth(false, position);
    for (Link link : links) {
      boolean pulse = link.association().qualifier() == Qualifier.P1 || link.association().qualifier() == Qualifier.P0;
      Expression given = given(link, Terms.name(stopped));
      on = pulse ? on : either(on, given, position);
      pulses = pulse ? either(pulses, given, position) : pulses;
    }
    Name acts = wire("active", Terms.and(on, Terms.not(Terms.name(stopped), position), position), position);
    Name once = wire("pulse", pulses, position);
    Optional<Sequence.Action> action = sequence.actions().stream().filter(it -> it.name().key().equals(target))
        .findFirst();
    if (action.isEmpty()) {
      return () -> variable(links.get(0).association().target(), either(Terms.name(acts), Terms.name(once), position),
          position);
    }
    boolean held = links.stream().anyMatch(link -> link.association().qualifier() != Qualifier.P1
        && link.association().qualifier() != Qualifier.P0);
    Expression runs = either(Terms.name(acts), Terms.name(once), position);
    if (held) {
      Name before = hidden.kept("before", "BOOL", position);
      runs = Terms.name(wire("runs", either(runs, Terms.name(before), position), position));
      out.add(Terms.assign(Terms.name(before), Terms.name(acts), position));
    }
    Expression condition = runs;
    return () -> out.addAll(Terms.when(condition, bodies.apply(action.get()), position));
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

  /** What one association contributes, by the function block ACTION_CONTROL of the standard (from memory). */
  private Expression given(Link link, Expression reset) {
    Position position = link.association().position();
    Expression active = active(link);
    return switch (link.association().qualifier()) {
      case N -> active;
      case R -> Terms.truth(false, position);
      case S -> stored(active, reset, position);
      case L -> Terms.and(active, Terms.not(elapsed(link, active), position), position);
      case D -> elapsed(link, active);
      case P, P1 -> edge(active, true, position);
      case P0 -> edge(active, false, position);
      case SD -> elapsed(link, stored(active, reset, position));
      case DS -> stored(elapsed(link, active), reset, position);
      case SL -> {
        Expression stored = stored(active, reset, position);
        yield Terms.and(stored, Terms.not(elapsed(link, stored), position), position);
      }
    };
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

  private Expression elapsed(Link link, Expression running) {
    Association association = link.association();
    Position position = association.position();
    if (association.time().isEmpty()) {
      around.error(position, "an action with the qualifier " + association.qualifier() + " needs a time",
          "write one such as T#2s");
      return Terms.truth(false, position);
    }
    Name timer = hidden.kept("timer", "TON", position);
    out.add(new Statement.Invocation(new Expression.Call(Terms.name(timer), List.of(
        new Expression.Input(new Name("IN", position), running),
        new Expression.Input(new Name("PT", position), Terms.required(association.time().get(), "TIME",
            "the time of an action"))), position)));
    return ChartTranslator.part(timer, "Q", position);
  }
}

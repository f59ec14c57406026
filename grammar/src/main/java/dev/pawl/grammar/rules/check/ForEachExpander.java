package dev.pawl.grammar.rules.check;

import dev.pawl.grammar.rules.tree.Declaration;
import dev.pawl.grammar.rules.tree.Expression;
import dev.pawl.grammar.rules.tree.ForEach;
import dev.pawl.grammar.rules.tree.Name;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;

/** Makes the cases of a rule that serves many zones or signals. */
final class ForEachExpander {

  private final Context context;
  private final List<Declaration.Zone> zones;

  ForEachExpander(Context context, List<Declaration.Zone> zones) {
    this.context = context;
    this.zones = zones;
  }

  /**
   * One case of a rule.
   *
   * @param names what each variable stands for, as written
   * @param values the same, resolved
   */
  record Case(Map<String, String> names, Map<String, Checked> values) {}

  /** The cases in the order written; one without names for a rule that has no {@code for each}. */
  List<Case> cases(Declaration.Rule rule) {
    if (rule.forEach().isEmpty()) {
      return List.of(new Case(Map.of(), Map.of()));
    }
    ForEach forEach = rule.forEach().get();
    forEach.variables().forEach(variable -> context.names.shadows(variable.name()));
    List<Case> cases = new ArrayList<>();
    List<ForEach.Tuple> tuples = tuples(forEach);
    if (tuples.size() > RuleCollector.MOST_RULES) {
      context.problems.error(forEach.position(), "these are more than " + RuleCollector.MOST_RULES + " cases",
          "split the list");
      return List.of();
    }
    for (ForEach.Tuple tuple : tuples) {
      if (tuple.names().size() != forEach.variables().size()) {
        context.problems.error(tuple.position(), "each case needs " + forEach.variables().size()
            + " names, but this one has " + tuple.names().size());
        continue;
      }
      Case bound = bind(forEach, tuple);
      if (!bound.values().containsValue(Checked.FAILED)) {
        cases.add(bound);
      }
    }
    return cases;
  }

  private List<ForEach.Tuple> tuples(ForEach forEach) {
    return forEach.cases().match(every -> everyZone(forEach), ForEach.Listed::tuples, named -> group(named.group()));
  }

  private List<ForEach.Tuple> group(Name name) {
    Optional<Declared> entry = context.names.find(name.text());
    if (entry.isEmpty()) {
      context.names.unknown(name.position(), name.text());
    } else if (entry.get() instanceof Declared.GroupEntry group) {
      return group.declaration().tuples();
    } else if (!(entry.get() instanceof Declared.MissingEntry)) {
      context.problems.error(name.position(), "`" + name.text() + "` is " + entry.get().kind() + ", not a group",
          "list the cases in parentheses, or give them a name: group places = ((a, b), (c, d))");
    }
    return List.of();
  }

  private List<ForEach.Tuple> everyZone(ForEach forEach) {
    if (forEach.variables().size() != 1 || !forEach.variables().get(0).zone()) {
      context.problems.error(forEach.position(),
          "only one zone can stand for every zone; here the cases must be listed",
          "write in ((a, b), (c, d)) behind the names");
      return List.of();
    }
    return zones.stream().map(zone -> new ForEach.Tuple(List.of(zone.name()), forEach.position())).toList();
  }

  private Case bind(ForEach forEach, ForEach.Tuple tuple) {
    Map<String, String> names = new LinkedHashMap<>();
    Map<String, Checked> values = new LinkedHashMap<>();
    ExpressionChecker global = new ExpressionChecker(context);
    for (int i = 0; i < tuple.names().size(); i++) {
      ForEach.Variable variable = forEach.variables().get(i);
      Name bound = tuple.names().get(i);
      Expression reference = new Expression.Reference(bound.text(), bound.position());
      names.put(variable.name().text(), bound.text());
      values.put(variable.name().text(), variable.zone()
          ? global.zone(reference).<Checked>map(Checked.Place::new).orElse(Checked.FAILED) : signal(global, reference));
    }
    return new Case(names, values);
  }

  private Checked signal(ExpressionChecker global, Expression reference) {
    Checked value = global.check(reference);
    if (value instanceof Checked.Place) {
      context.problems.error(reference.position(), "a signal was expected, but this is a zone");
      return Checked.FAILED;
    }
    return value;
  }
}

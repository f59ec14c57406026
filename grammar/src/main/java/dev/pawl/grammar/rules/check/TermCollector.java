package dev.pawl.grammar.rules.check;

import dev.pawl.grammar.rules.model.Scale;
import dev.pawl.grammar.rules.model.Term;
import dev.pawl.grammar.rules.print.ExpressionPrinter;
import dev.pawl.grammar.rules.tree.Declaration;
import dev.pawl.grammar.rules.tree.Duty;
import dev.pawl.grammar.rules.tree.Expression;
import dev.pawl.grammar.rules.units.UnitTable;
import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Deque;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Stream;

/** Finds the constants and definitions that a rule is written with, so that a reader sees what its names stand for. */
final class TermCollector {

  private final Context context;
  private final ExpressionPrinter printer = new ExpressionPrinter();
  private final Map<String, Entry> entries = new HashMap<>();

  /** A term, and the names that stand in it. */
  private record Entry(Term term, List<String> names) {}

  TermCollector(Context context) {
    this.context = context;
  }

  /**
   * The terms of one case of a rule.
   *
   * @param names what each name of {@code for each} stands for
   */
  List<Term> of(Declaration.Rule rule, Map<String, String> names) {
    Map<String, Entry> found = new LinkedHashMap<>();
    Deque<String> waiting = new ArrayDeque<>();
    parts(rule).forEach(part -> part.accept(NamesWritten.INSTANCE)
        .forEach(name -> waiting.add(names.getOrDefault(name, name))));
    while (!waiting.isEmpty()) {
      String name = waiting.poll();
      if (!found.containsKey(name)) {
        entry(name).ifPresent(entry -> {
          found.put(name, entry);
          waiting.addAll(entry.names());
        });
      }
    }
    return found.values().stream().map(Entry::term).toList();
  }

  private Optional<Entry> entry(String name) {
    Entry known = entries.get(name);
    if (known != null) {
      return Optional.of(known);
    }
    Optional<Entry> entry = context.names.find(name).flatMap(this::entry);
    entry.ifPresent(it -> entries.put(name, it));
    return entry;
  }

  private Optional<Entry> entry(Declared declared) {
    if (declared instanceof Declared.ConstantEntry constant) {
      Declaration.Constant of = constant.declaration();
      return Optional.of(new Entry(constant(of), of.value().accept(NamesWritten.INSTANCE)));
    }
    return declared instanceof Declared.DefineEntry define ? Optional.of(definition(define.declaration()))
        : Optional.empty();
  }

  /** Its parameters hide what else has their names. */
  private Entry definition(Declaration.Define define) {
    List<String> parameters = define.parameters().stream().map(parameter -> parameter.name().text()).toList();
    List<String> names = define.body().accept(NamesWritten.INSTANCE).stream()
        .filter(name -> !parameters.contains(name)).toList();
    return new Entry(new Term(define.name().text(), printer.print(define.body()), "", define.name().position()), names);
  }

  private Term constant(Declaration.Constant constant) {
    String written = printer.print(constant.value());
    String value = constant.value() instanceof Expression.Number ? written : worked(constant).orElse(written);
    return new Term(constant.name().text(), written, value, constant.name().position());
  }

  private Optional<String> worked(Declaration.Constant constant) {
    if (!(context.definitions.constant(constant, constant.name().position()) instanceof Checked.Amount amount)) {
      return Optional.empty();
    }
    double value = amount.constant().orElseThrow();
    return UnitTable.find(amount.unit()).filter(unit -> unit.dimension().equals(amount.dimension()))
        .map(unit -> text(unit.scale().originNumber(value), amount.unit()))
        .or(() -> Optional.of(text(value, amount.dimension().siUnit())));
  }

  private static String text(double value, String unit) {
    return Scale.shortest(value).toPlainString() + (unit.isEmpty() ? "" : " " + unit);
  }

  private static List<Expression> parts(Declaration.Rule rule) {
    List<Expression> parts = new ArrayList<>();
    parts.addAll(rule.duty().match(TermCollector::parts, everywhere -> List.of(everywhere.condition())));
    rule.duty().scopes().forEach(scope -> parts.add(scope.condition()));
    rule.clauses().forEach(clause -> parts.addAll(clause.match(basis -> List.of(), severity -> List.of(),
        tolerance -> List.of(tolerance.amount()), resolution -> List.of(resolution.duration()),
        satisfies -> List.of())));
    rule.proof().forEach(proof -> parts.addAll(proof.match(byTrigger -> List.of(),
        trial -> Stream.concat(Stream.of(trial.event()), trial.given().stream()).toList(), untried -> List.of())));
    return parts;
  }

  private static List<Expression> parts(Duty.When when) {
    List<Expression> parts = new ArrayList<>(List.of(when.trigger(), when.demand().required()));
    when.demand().timing().ifPresent(timing -> parts.addAll(timing.match(
        within -> Stream.of(within.after(), within.within()).flatMap(Optional::stream).toList(),
        throughout -> Stream.concat(throughout.after().stream(), Stream.of(throughout.duration())).toList(),
        before -> List.of(before.limit()))));
    when.demand().stay().ifPresent(stay -> parts.add(stay.match(Duty.StayFor::duration, Duty.StayUntil::release)));
    return parts;
  }
}

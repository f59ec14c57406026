package dev.pawl.grammar.rules.advice;

import dev.pawl.grammar.rules.model.BoolExpr;
import dev.pawl.grammar.rules.model.Rule;
import dev.pawl.grammar.rules.model.RuleBook;
import dev.pawl.grammar.rules.model.RuleParts;
import dev.pawl.grammar.rules.model.Signal;
import dev.pawl.grammar.rules.model.Zone;
import java.util.List;
import java.util.Set;
import java.util.TreeSet;
import java.util.stream.Stream;

/**
 * What a rule book declares and no rule of it watches.
 *
 * @param signals those that no rule and no zone looks at
 * @param outputs of the others, the outputs of which no rule requires anything
 * @param zones those whose trains matter to no rule
 */
public record Unwatched(List<Signal> signals, List<Signal> outputs, List<Zone> zones) {

  /** What no rule of the book watches. */
  public static Unwatched of(RuleBook book) {
    Set<Integer> used = new TreeSet<>();
    Set<Integer> required = new TreeSet<>();
    Set<Integer> counted = new TreeSet<>();
    for (Rule rule : book.rules()) {
      used.addAll(RuleParts.signals(rule, book));
      required.addAll(constrained(rule, book));
      Stream.concat(rule.duty().conditions().stream(), rule.proof().conditions().stream())
          .forEach(condition -> counted.addAll(condition.zones()));
    }
    for (Zone zone : book.zones()) {
      zone.conditions().forEach(part -> used.addAll(part.signals()));
    }
    return new Unwatched(book.signals().stream().filter(signal -> !used.contains(signal.index())).toList(),
        book.signals().stream().filter(signal -> used.contains(signal.index())
            && signal.direction() == Signal.Direction.OUTPUT && !required.contains(signal.index())).toList(),
        book.zones().stream().filter(zone -> !counted.contains(zone.index())).toList());
  }

  /**
   * The signals that a rule requires something of. One that requires nothing of an output, such as "when the gate is
   * released the lift must not be occupied", restrains the output in its trigger.
   */
  private static Set<Integer> constrained(Rule rule, RuleBook book) {
    List<BoolExpr> asked = rule.duty().requirements();
    Set<Integer> signals = new TreeSet<>(RuleParts.signals(asked, book));
    boolean ofOutputs = signals.stream().anyMatch(it -> book.signals().get(it).direction() == Signal.Direction.OUTPUT);
    if (!ofOutputs && rule.duty() instanceof Rule.When when) {
      signals.addAll(RuleParts.signals(List.of(when.trigger()), book));
    }
    return signals;
  }
}

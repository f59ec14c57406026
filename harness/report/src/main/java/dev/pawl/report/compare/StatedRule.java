package dev.pawl.report.compare;

import dev.pawl.grammar.rules.explain.Limit;
import dev.pawl.grammar.rules.explain.RuleExplainer;
import dev.pawl.grammar.rules.explain.ZoneWords;
import dev.pawl.grammar.rules.model.Proof;
import dev.pawl.grammar.rules.model.Rule;
import dev.pawl.grammar.rules.model.RuleBook;
import dev.pawl.grammar.rules.model.RuleParts;
import java.util.List;
import java.util.Optional;
import java.util.OptionalLong;

/**
 * What a rule says, as far as a report tells.
 *
 * @param text the duty as written; empty where it is not known
 * @param basis where it comes from; empty where that is not known
 * @param resolutionNs by which a logged time can be off
 * @param trials what tries it, as written
 * @param formula the duty with all names resolved; empty in reports of earlier versions
 * @param limits its numbers and times, in the order in which {@link Limit} finds them
 * @param zones the zones that it reads, with what bounds them
 */
public record StatedRule(String id, String title, Optional<String> text, Optional<Rule.Severity> severity,
    Optional<String> basis, OptionalLong resolutionNs, List<String> trials, Optional<String> formula,
    List<Limit> limits, List<String> zones) {

  public StatedRule {
    trials = List.copyOf(trials);
    limits = List.copyOf(limits);
    zones = List.copyOf(zones);
  }

  /** What a rule of a book says. */
  public static StatedRule of(Rule rule, RuleBook book) {
    boolean known = rule.index() < book.rules().size() && book.rules().get(rule.index()).id().equals(rule.id());
    return new StatedRule(rule.id(), rule.title(), Optional.of(rule.text()), Optional.of(rule.severity()),
        Optional.of(rule.basis().text()), OptionalLong.of(rule.resolution()), rule.proof().trials().stream()
            .map(Proof.Trial::text).toList(), known ? Optional.of(new RuleExplainer(book).explain(rule).formula())
                : Optional.empty(), known ? Limit.of(rule, book) : List.of(), known ? zones(rule, book) : List.of());
  }

  private static List<String> zones(Rule rule, RuleBook book) {
    ZoneWords words = new ZoneWords(book);
    return RuleParts.zones(RuleParts.conditions(rule), book).stream().map(zone -> words.say(book.zones().get(zone)))
        .toList();
  }
}

package dev.pawl.grammar.rules.check;

import dev.pawl.grammar.rules.model.Proof;
import dev.pawl.grammar.rules.model.Rule;
import dev.pawl.grammar.rules.print.DutyPrinter;
import dev.pawl.grammar.rules.print.ExpressionPrinter;
import dev.pawl.grammar.rules.tree.Declaration;
import dev.pawl.grammar.rules.tree.Name;
import dev.pawl.grammar.rules.tree.RuleClause;
import dev.pawl.grammar.source.NearName;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/** Makes the rules of the book, one for each case of each declaration. */
final class RuleCollector {

  static final int MOST_RULES = 10_000;
  private static final Pattern PLACEHOLDER = Pattern.compile("\\{\\s*(\\w+)\\s*}");
  private static final List<String> LEVELS = List.of("minor", "major", "critical");

  private final Context context;
  private final ForEachExpander expander;
  private final long resolution;
  private final RequirementChecker requirements;
  private final TermCollector terms;
  private final Map<String, Rule> rules = new LinkedHashMap<>();
  private boolean tooMany;

  RuleCollector(Context context, List<Declaration.Zone> zones, long resolution,
      RequirementChecker requirements) {
    this.context = context;
    this.expander = new ForEachExpander(context, zones);
    this.resolution = resolution;
    this.requirements = requirements;
    this.terms = new TermCollector(context);
  }

  List<Rule> rules() {
    return List.copyOf(rules.values());
  }

  Optional<Rule> find(String id) {
    return Optional.ofNullable(rules.get(id));
  }

  Iterable<String> identifiers() {
    return rules.keySet();
  }

  void add(Declaration.Rule rule) {
    Map<String, RuleClause> clauses = clauses(rule);
    if (!clauses.containsKey("basis")) {
      context.problems.warning(rule.id().position(), "rule " + rule.id().text()
          + " does not say where its requirement comes from", "add basis \"...\" with the source, or basis practice");
    }
    Rule.Severity severity = severity(clauses);
    long own = clauses.get("resolution") instanceof RuleClause.Resolution stated
        ? new ExpressionChecker(context).duration(stated.duration()).orElse(0L) : resolution;
    for (ForEachExpander.Case single : expander.cases(rule)) {
      add(rule, single, clauses, severity, own);
    }
  }

  private void add(Declaration.Rule rule, ForEachExpander.Case single, Map<String, RuleClause> clauses,
      Rule.Severity severity, long own) {
    if (rules.size() >= MOST_RULES) {
      if (!tooMany) {
        context.problems.error(rule.id().position(), "these are more than " + MOST_RULES + " rules",
            "split them into several runs");
      }
      tooMany = true;
      return;
    }
    Tolerance tolerance = tolerance(clauses);
    ExpressionChecker expressions = new ExpressionChecker(context, single.values(), Tolerance.NONE);
    Optional<Rule.Duty> duty = new RuleChecker(context, expressions, tolerance).check(rule.duty());
    if (tolerance != Tolerance.NONE && !tolerance.isTaken() && duty.isPresent()) {
      context.problems.error(clauses.get("tolerance").position(),
          "nothing that this rule requires is a comparison in this unit",
          "leave tolerance out, or write it in the unit of what must be compared");
    }
    String id = filled(rule.id(), single.names());
    String title = filled(rule.title(), single.names());
    Proof proof = new ProofChecker(context, expressions, new DutyPrinter(new ExpressionPrinter(single.names())))
        .check(rule);
    List<String> served = requirements.of(rule.id(), id, satisfies(clauses, single));
    duty.ifPresent(checked -> enter(rule, new Rule(rules.size(), id, title, severity, basis(clauses), checked, proof,
        own, text(rule, single), served, terms.of(rule, single.names()), rule.id().position())));
  }

  private void enter(Declaration.Rule declaration, Rule rule) {
    Rule earlier = rules.putIfAbsent(rule.id(), rule);
    if (earlier != null) {
      boolean same = earlier.position().equals(rule.position());
      String problem = same ? " would stand for more than one case" : " is declared already at " + earlier.position();
      String hint = declaration.forEach()
          .map(each -> "put {" + each.variables().get(0).name().text()
              + "} into the identifier, so that each case has its own")
          .orElse("give each rule its own identifier");
      context.problems.error(declaration.id().position(), "rule " + rule.id() + problem, hint);
    }
  }

  private List<Name> satisfies(Map<String, RuleClause> clauses, ForEachExpander.Case single) {
    return clauses.get("satisfies") instanceof RuleClause.Satisfies stated ? stated.requirements().stream()
        .map(name -> new Name(filled(name, single.names()), name.position())).toList() : List.of();
  }

  private static String text(Declaration.Rule rule, ForEachExpander.Case single) {
    return new DutyPrinter(new ExpressionPrinter(single.names())).line(rule.duty());
  }

  private Map<String, RuleClause> clauses(Declaration.Rule rule) {
    Map<String, RuleClause> clauses = new HashMap<>();
    for (RuleClause clause : rule.clauses()) {
      if (clauses.putIfAbsent(clause.word(), clause) != null) {
        context.problems.error(clause.position(), "`" + clause.word() + "` is stated twice for this rule");
      }
    }
    return clauses;
  }

  private Rule.Severity severity(Map<String, RuleClause> clauses) {
    if (!(clauses.get("severity") instanceof RuleClause.Severity stated)) {
      return Rule.Severity.MAJOR;
    }
    String level = stated.level().text();
    if (!LEVELS.contains(level)) {
      context.problems.error(stated.level().position(), "`" + level
          + "` is not a severity: expected minor, major or critical", NearName.hint(level, LEVELS).orElse(""));
      return Rule.Severity.MAJOR;
    }
    return Rule.Severity.valueOf(level.toUpperCase(Locale.ROOT));
  }

  private Tolerance tolerance(Map<String, RuleClause> clauses) {
    if (!(clauses.get("tolerance") instanceof RuleClause.Tolerance stated)) {
      return Tolerance.NONE;
    }
    Optional<Checked.Amount> amount = new ExpressionChecker(context).numbers().difference(stated.amount());
    if (amount.isPresent() && amount.get().constant().orElseThrow() <= 0) {
      context.problems.error(stated.amount().position(), "a tolerance must be positive");
      return Tolerance.NONE;
    }
    return amount.map(a -> new Tolerance(a.constant().orElseThrow(), a.dimension())).orElse(Tolerance.NONE);
  }

  private static Rule.Basis basis(Map<String, RuleClause> clauses) {
    return clauses.get("basis") instanceof RuleClause.Basis basis
        ? new Rule.Basis(basis.text().map(Name::text).orElse(""), basis.practice()) : new Rule.Basis("", false);
  }

  /** A text with what the variables of {@code for each} stand for in place of {@code {name}}. */
  private String filled(Name text, Map<String, String> names) {
    List<String> unknown = new ArrayList<>();
    String filled = PLACEHOLDER.matcher(text.text()).replaceAll(match -> {
      String name = names.get(match.group(1));
      if (name == null) {
        unknown.add(match.group(1));
      }
      return Matcher.quoteReplacement(name == null ? match.group() : name);
    });
    unknown.forEach(name -> context.problems.error(text.position(), "{" + name + "} stands for nothing in this rule",
        names.isEmpty() ? "only a rule with for each has names to fill in" : "the names are "
        + String.join(", ", names.keySet())));
    return filled;
  }
}

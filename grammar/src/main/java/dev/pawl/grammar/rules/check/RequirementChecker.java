package dev.pawl.grammar.rules.check;

import dev.pawl.grammar.rules.model.Requirement;
import dev.pawl.grammar.rules.tree.Declaration;
import dev.pawl.grammar.rules.tree.Name;
import dev.pawl.grammar.rules.tree.RequirementClause;
import dev.pawl.grammar.source.Diagnostics;
import dev.pawl.grammar.source.NearName;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.stream.Collectors;

/**
 * Requirements, and which rules serve which. A rule names its requirements, or a requirement the rules that serve it: a
 * file of rules that many rides take in cannot know what each of them has to show.
 */
final class RequirementChecker {

  private final Diagnostics problems;
  private final boolean allRead;
  private final Map<String, Requirement> requirements = new LinkedHashMap<>();
  private final Map<String, Set<String>> byRule = new LinkedHashMap<>();
  private final List<Name> rulesNamed = new ArrayList<>();

  /**
   * A checker without requirements yet.
   *
   * @param allRead whether every declaration could be read: else what seems to be missing may have been among the rest
   */
  RequirementChecker(Diagnostics problems, boolean allRead) {
    this.problems = problems;
    this.allRead = allRead;
  }

  List<Requirement> requirements() {
    return List.copyOf(requirements.values());
  }

  void add(Declaration.Requirement stated) {
    Map<String, String> words = words(stated);
    Requirement requirement = new Requirement(stated.id().text(), stated.text().text(),
        words.getOrDefault("source", ""), words.getOrDefault("hazard", ""), words.getOrDefault("level", ""),
        stated.id().position());
    Requirement earlier = requirements.putIfAbsent(requirement.id(), requirement);
    if (earlier != null) {
      problems.error(stated.id().position(), "requirement " + requirement.id() + " is declared already at "
          + earlier.position(), "give each requirement its own identifier");
    }
  }

  private Map<String, String> words(Declaration.Requirement stated) {
    Map<String, String> words = new LinkedHashMap<>();
    for (RequirementClause clause : stated.clauses()) {
      String text = clause instanceof RequirementClause.Worded worded ? worded.text().text() : "";
      if (words.putIfAbsent(clause.word(), text) != null) {
        problems.error(clause.position(), "`" + clause.word() + "` is stated twice for this requirement");
      }
      if (clause instanceof RequirementClause.SatisfiedBy by) {
        rulesNamed.addAll(by.rules());
        by.rules().forEach(rule -> byRule.computeIfAbsent(rule.text(), name -> new LinkedHashSet<>())
            .add(stated.id().text()));
      }
    }
    return words;
  }

  /**
   * The requirements that a rule serves, in the order in which they are declared.
   *
   * @param declared its identifier as declared, with {@code for each} names in it
   * @param id its own
   * @param named those that it names itself
   */
  List<String> of(Name declared, String id, List<Name> named) {
    Set<String> served = named.stream().map(Name::text).collect(Collectors.toSet());
    served.addAll(byRule.getOrDefault(id, Set.of()));
    served.addAll(byRule.getOrDefault(common(declared), Set.of()));
    for (Name name : named) {
      if (!requirements.containsKey(name.text()) && allRead) {
        problems.error(name.position(), "there is no requirement " + name.text(),
            NearName.hint(name.text(), requirements.keySet())
                .orElse("declare it: requirement " + name.text() + " \"what must be\""));
      }
    }
    return requirements.keySet().stream().filter(served::contains).toList();
  }

  /** What all cases of a rule are called together: its identifier up to the first name that is filled in. */
  private static String common(Name declared) {
    return declared.text().replaceFirst("-?\\{.*", "");
  }

  /** Tells of rules named by requirements that no file declares. */
  void checkRules(List<Declaration.Rule> declared, Iterable<String> identifiers) {
    Set<String> known = declared.stream().map(rule -> common(rule.id())).collect(Collectors.toSet());
    identifiers.forEach(known::add);
    for (Name name : rulesNamed) {
      if (!known.contains(name.text()) && allRead) {
        problems.error(name.position(), "there is no rule " + name.text(),
            NearName.hint(name.text(), known).orElse("name a rule, or all cases of one by what stands before {...}"));
      }
    }
  }
}

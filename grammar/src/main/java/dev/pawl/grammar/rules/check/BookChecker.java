package dev.pawl.grammar.rules.check;

import dev.pawl.grammar.rules.model.RuleBook;
import dev.pawl.grammar.rules.model.RuleExample;
import dev.pawl.grammar.rules.model.Zone;
import dev.pawl.grammar.rules.tree.Declaration;
import dev.pawl.grammar.rules.tree.RuleFile;
import dev.pawl.grammar.source.Diagnostics;
import dev.pawl.grammar.source.Position;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

/**
 * The way from syntax trees to the rule book: names first, then definitions, zones, rules and examples, each told about
 * everything that is wrong with it.
 */
public final class BookChecker {

  private final Context context;
  private final DeclarationCollector declarations;
  private final boolean allRead;

  private BookChecker(List<RuleFile> files, Diagnostics problems) {
    this.allRead = !problems.hasErrors();
    this.context = new Context(problems);
    this.declarations = new DeclarationCollector(context, files);
  }

  /** Checks all files together; the result counts only where no error was added to {@code problems}. */
  public static CheckedBook check(List<RuleFile> files, Diagnostics problems) {
    return new BookChecker(files, problems).check();
  }

  private CheckedBook check() {
    declarations.collect();
    declarations.all(Declaration.Constant.class).forEach(c -> context.definitions.constant(c, c.name().position()));
    declarations.all(Declaration.Define.class).forEach(this::define);
    declarations.checkNeeds();
    long resolution = resolution();
    List<Zone> zones = zones();
    RequirementChecker requirements = new RequirementChecker(context.problems, allRead);
    declarations.all(Declaration.Requirement.class).forEach(requirements::add);
    RuleCollector rules = new RuleCollector(context, declarations.zones(), resolution, requirements);
    declarations.all(Declaration.Rule.class).forEach(rules::add);
    requirements.checkRules(declarations.all(Declaration.Rule.class).toList(), rules.identifiers());
    ExampleChecker examples = new ExampleChecker(context, rules);
    List<RuleExample> checked = declarations.all(Declaration.Example.class).map(examples::check)
        .flatMap(Optional::stream)
        .toList();
    return new CheckedBook(new RuleBook(ride(), resolution, declarations.signals(), zones, rules.rules(),
        requirements.requirements()), checked);
  }

  private void define(Declaration.Define define) {
    boolean declared = context.names.find(define.name().text()).filter(Declared.DefineEntry.class::isInstance)
        .filter(entry -> ((Declared.DefineEntry) entry).declaration() == define).isPresent();
    if (declared) {
      context.definitions.definition(define, define.name().position(), Tolerance.NONE);
    }
  }

  private List<Zone> zones() {
    ZoneChecker checker = new ZoneChecker(context);
    List<Zone> zones = new ArrayList<>();
    for (int i = 0; i < declarations.zones().size(); i++) {
      checker.check(i, declarations.zones().get(i)).ifPresent(zones::add);
    }
    if (zones.size() == declarations.zones().size()) {
      new ZoneCircles(context.problems, zones).check();
    }
    return zones;
  }

  private String ride() {
    return single(declarations.all(Declaration.Ride.class).toList(), "the ride's name").map(ride -> ride.title().text())
        .orElse("");
  }

  private long resolution() {
    return single(declarations.all(Declaration.Resolution.class).toList(), "the resolution")
        .flatMap(stated -> new ExpressionChecker(context).duration(stated.duration()))
        .orElse(0L);
  }

  private <D extends Declaration> Optional<D> single(List<D> stated, String what) {
    for (int i = 1; i < stated.size(); i++) {
      Position first = stated.get(0).position();
      context.problems.error(stated.get(i).position(), what + " is stated already at " + first);
    }
    return stated.stream().findFirst();
  }
}

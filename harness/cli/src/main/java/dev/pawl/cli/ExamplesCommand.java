package dev.pawl.cli;

import dev.pawl.engine.EngineOptions;
import dev.pawl.engine.RuleEngine;
import dev.pawl.engine.RuleOutcome;
import dev.pawl.engine.TraceOutcome;
import dev.pawl.engine.Verdict;
import dev.pawl.grammar.rules.model.Rule;
import dev.pawl.grammar.rules.model.RuleExample;
import dev.pawl.grammar.rules.model.RuleExample.Event;
import dev.pawl.report.collect.FindingCollector;
import dev.pawl.report.words.FindingWords;
import dev.pawl.report.words.ValueText;
import java.util.List;
import java.util.Optional;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Model.OptionSpec;
import picocli.CommandLine.Model.PositionalParamSpec;
import picocli.CommandLine.ParseResult;

/** {@code pawl examples}: whether the rules give what the examples in their files say. */
final class ExamplesCommand implements Command {

  /** How far a margin may be off by rounding, in parts of its size. */
  private static final double ROUNDING = 1e-9;

  @Override
  public CommandSpec spec() {
    CommandSpec spec = CommandSpec.create().name("pawl examples");
    spec.usageMessage().description("Runs the examples that stand in rule files: does each rule give the verdict that its example states?",
        "Exit status: 1 if one does not, 2 if the rules have errors or no example, else 0.");
    spec.addOption(OptionSpec.builder("-r", "--rules").paramLabel("PATH").type(List.class).auxiliaryTypes(String.class).arity("1")
        .description("Rule file, or folder of rule files; can be given several times, or named without --rules.").build());
    spec.addOption(RuleFiles.usableFolders());
    spec.addPositional(PositionalParamSpec.builder().index("0..*").paramLabel("PATH").type(List.class).auxiliaryTypes(String.class)
        .arity("0..*").hidden(true).build());
    return spec;
  }

  @Override
  public int run(ParseResult words, Console console) {
    RuleFiles rules = RuleFiles.load(RuleFiles.named(words, "pawl examples"), RuleFiles.usableFolders(words), console);
    List<RuleExample> examples = rules.compilation().examples();
    if (examples.isEmpty()) {
      throw new CommandException("these rule files hold no example");
    }
    long wrong = 0;
    for (RuleExample example : examples) {
      Optional<String> difference = difference(example, rules);
      if (difference.isPresent()) {
        wrong++;
        console.out().println(example.position() + ": " + rules.book().rules().get(example.rule()).id() + " \"" + example.title() + "\": "
            + difference.get());
      }
    }
    console.out().println(ValueText.count(examples.size()) + (examples.size() == 1 ? " example, " : " examples, ")
        + (wrong == 0 ? "all as stated" : ValueText.count(wrong) + " not as stated"));
    console.remind(cautions());
    return wrong == 0 ? ExitStatus.NOTHING_BROKEN : ExitStatus.RULE_BROKEN;
  }

  /** What an example gives that it should not, or nothing. */
  private static Optional<String> difference(RuleExample example, RuleFiles rules) {
    RuleEngine engine = new RuleEngine(rules.book(), EngineOptions.DEFAULT, new FindingCollector(rules.book(), 0));
    for (Event event : example.events()) {
      engine.event(event.time(), event.signal(), event.value(), event.line());
    }
    TraceOutcome outcome = example.end().isPresent() ? engine.finish(example.end().getAsLong()) : engine.finish();
    RuleOutcome given = outcome.rules().get(example.rule());
    Rule rule = rules.book().rules().get(example.rule());
    if (!FindingWords.verdict(given.verdict()).equals(example.expected().label())) {
      return Optional.of("gives " + FindingWords.verdict(given.verdict()) + ", not " + example.expected().label());
    }
    if (example.margin().isPresent() && given.verdict() != Verdict.NOT_EXERCISED) {
      return margin(example.margin().get(), given, rule);
    }
    return Optional.empty();
  }

  private static Optional<String> margin(double expected, RuleOutcome given, Rule rule) {
    if (given.margin().isEmpty()) {
      return Optional.of(rule.id() + " has no margin, but the example states one");
    }
    double value = given.margin().get().value();
    if (Math.abs(value - expected) <= ROUNDING * Math.max(1, Math.abs(expected))) {
      return Optional.empty();
    }
    String unit = given.margin().get().unit();
    return Optional.of("gives a margin of " + ValueText.withUnit(value, unit) + ", not " + ValueText.withUnit(expected, unit));
  }
}

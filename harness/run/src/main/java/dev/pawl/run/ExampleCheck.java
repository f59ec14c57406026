package dev.pawl.run;

import dev.pawl.engine.EngineOptions;
import dev.pawl.engine.RuleEngine;
import dev.pawl.engine.RuleOutcome;
import dev.pawl.engine.TraceOutcome;
import dev.pawl.engine.Verdict;
import dev.pawl.grammar.rules.model.Rule;
import dev.pawl.grammar.rules.model.RuleBook;
import dev.pawl.grammar.rules.model.RuleExample.Event;
import dev.pawl.grammar.rules.model.RuleExample;
import dev.pawl.report.collect.FindingCollector;
import dev.pawl.report.words.FindingWords;
import dev.pawl.report.words.ValueText;
import java.util.Optional;

/** Whether rules give what an example in their file says. */
public final class ExampleCheck {

  /** How far a margin may be off by rounding, in parts of its size. */
  private static final double ROUNDING = 1e-9;

  private ExampleCheck() {}

  /** What an example gives that it should not, or nothing. */
  public static Optional<String> difference(RuleExample example, RuleBook book) {
    RuleEngine engine = new RuleEngine(book, EngineOptions.DEFAULT, new FindingCollector(book, 0));
    TraceOutcome outcome = judge(example, engine);
    RuleOutcome given = outcome.rules().get(example.rule());
    Rule rule = book.rules().get(example.rule());
    if (!FindingWords.verdict(given.verdict()).equals(example.expected().label())) {
      return Optional.of("gives " + FindingWords.verdict(given.verdict()) + ", not " + example.expected().label());
    }
    if (example.margin().isPresent() && given.verdict() != Verdict.NOT_EXERCISED) {
      return margin(example.margin().get(), given, rule);
    }
    return Optional.empty();
  }

  /** What an example gives. */
  static TraceOutcome judge(RuleExample example, RuleEngine engine) {
    for (Event event : example.events()) {
      engine.event(event.time(), event.signal(), event.value(), event.line());
    }
    return example.end().isPresent() ? engine.finish(example.end().getAsLong()) : engine.finish();
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
    return Optional.of("gives a margin of " + ValueText.withUnit(value, unit) + ", not "
        + ValueText.withUnit(expected, unit));
  }
}

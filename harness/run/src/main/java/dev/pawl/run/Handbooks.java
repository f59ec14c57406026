package dev.pawl.run;

import dev.pawl.engine.EngineOptions;
import dev.pawl.engine.RuleEngine;
import dev.pawl.engine.TraceOutcome;
import dev.pawl.grammar.rules.explain.RuleExplainer;
import dev.pawl.grammar.rules.model.Rule;
import dev.pawl.grammar.rules.model.RuleBook;
import dev.pawl.grammar.rules.model.RuleExample;
import dev.pawl.report.collect.FindingCollector;
import dev.pawl.report.collect.ResultBuilder;
import dev.pawl.report.model.FindingResult;
import dev.pawl.report.model.Handbook;
import dev.pawl.report.model.Reading;
import dev.pawl.report.model.RuleResult;
import dev.pawl.report.model.TimeBase;
import dev.pawl.report.picture.ExamplePicture;
import dev.pawl.report.words.TimeText;
import dev.pawl.report.words.ValueText;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Stream;

/** Makes the handbook of a rule book: each rule in words, with its examples judged and drawn. */
public final class Handbooks {

  private Handbooks() {}

  /**
   * The handbook of some rules of a book.
   *
   * @param examples those of the whole book
   */
  public static Handbook of(RuleBook book, List<Rule> rules, List<RuleExample> examples, String version) {
    RuleExplainer explainer = new RuleExplainer(book);
    return new Handbook(book.ride(), version, rules.stream().map(rule -> new Handbook.Entry(rule,
        explainer.explain(rule), examples.stream().filter(example -> example.rule() == rule.index())
        .map(example -> example(book, example)).toList())).toList());
  }

  private static Handbook.Example example(RuleBook book, RuleExample example) {
    return new Handbook.Example(example, ExamplePicture.of(example, book), steps(book, example),
        finding(book, example));
  }

  private static Optional<FindingResult> finding(RuleBook book, RuleExample example) {
    FindingCollector findings = new FindingCollector(book, 1);
    TraceOutcome outcome = ExampleCheck.judge(example, new RuleEngine(book, EngineOptions.DEFAULT, findings));
    RuleResult result = new ResultBuilder(book, example.title(), TimeBase.START).build(outcome, findings,
        new Reading(List.of(), List.of(), 0, ""), 0, 0, false).rules().get(example.rule());
    return Stream.concat(result.broken().stream(), result.doubtful().stream()).findFirst();
  }

  private static List<String> steps(RuleBook book, RuleExample example) {
    Map<Long, List<String>> values = new LinkedHashMap<>();
    example.events().forEach(event -> values.computeIfAbsent(event.time(), unused -> new ArrayList<>())
        .add(book.signals().get(event.signal()).name() + " = "
            + ValueText.of(book.signals().get(event.signal()).type(), event.value())));
    List<String> steps = new ArrayList<>();
    values.forEach((time, those) -> steps.add("at " + TimeText.seconds(time) + " s  " + String.join(", ", those)));
    example.end().ifPresent(end -> steps.add("end at " + TimeText.seconds(end) + " s"));
    return steps;
  }
}

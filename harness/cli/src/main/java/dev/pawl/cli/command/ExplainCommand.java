package dev.pawl.cli.command;

import dev.pawl.cli.CommandException;
import dev.pawl.cli.Console;
import dev.pawl.cli.ExitStatus;
import dev.pawl.cli.keep.HandbookFolder;
import dev.pawl.cli.option.Operands;
import dev.pawl.cli.option.Option;
import dev.pawl.cli.option.ReadingOptions;
import dev.pawl.cli.option.RuleOptions;
import dev.pawl.cli.option.Syntax;
import dev.pawl.grammar.rules.explain.Explanation;
import dev.pawl.grammar.rules.explain.RuleExplainer;
import dev.pawl.grammar.rules.model.Rule;
import dev.pawl.grammar.source.NearName;
import dev.pawl.report.model.RuleResult;
import dev.pawl.report.model.TraceResult;
import dev.pawl.report.text.ExplanationText;
import dev.pawl.report.words.FindingWords;
import dev.pawl.report.words.ValueText;
import dev.pawl.run.EventSource;
import dev.pawl.run.Handbooks;
import dev.pawl.run.SourceJudge;
import dev.pawl.run.Version;
import dev.pawl.run.files.RuleFiles;
import dev.pawl.run.files.TraceFiles;
import dev.pawl.run.source.BegunSource;
import dev.pawl.run.source.RecordedSource;
import dev.pawl.trace.TraceOptions;
import dev.pawl.trace.intake.Progress;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import picocli.CommandLine.ParseResult;

/** {@code pawl explain}: rules in plain words and as formulas, whether given traces exercise them, or a handbook. */
public final class ExplainCommand implements Command {

  private static final Option<List<String>> RULE = Option.list("ID",
      "Only the rule of this identifier; can be given several times.", "--rule");
  private static final Option<Optional<String>> OUT = Option.text("DIR",
      "Write a handbook into this folder, which is new or empty: an HTML page for each rule, with its examples drawn,"
          + " a list of what to try,"
          + " and one that leads to them and shows which published requirements they state.", "-o", "--out");

  @Override
  public Syntax syntax() {
    return Syntax.of(List.of(RuleOptions.RULES, RuleOptions.USE_FROM, RULE, OUT, ReadingOptions.BINDINGS,
        ReadingOptions.TIME_UNIT, ReadingOptions.LENIENT),
        Operands.any("TRACE", "Recorded traces, or folders of them."),
        "Says each rule in plain words and as a formula, when its verdict is final, the signals it needs, and what"
            + " exercises it. With traces, also whether they do.");
  }

  @Override
  public int run(ParseResult words, Console console) {
    RuleFiles rules = RuleOptions.of(words).load(console);
    console.err().print(rules.compilation().rendered());
    List<Rule> chosen = chosen(rules, RULE.of(words));
    Optional<String> folder = OUT.of(words);
    if (folder.isPresent()) {
      return handbook(rules, chosen, folder.get(), RuleOptions.others(words), console);
    }
    ReadingOptions options = ReadingOptions.of(words);
    TraceOptions reading = options.of(TraceOptions.of(rules.book())
        .withBindings(options.bindings(rules.book(), console).bindings()));
    Map<String, TraceResult> results = results(rules, RuleOptions.others(words), reading);
    RuleExplainer explainer = new RuleExplainer(rules.book());
    for (Rule rule : chosen) {
      Explanation explanation = explainer.explain(rule);
      console.out().print(ExplanationText.of(explanation, console.style()));
      results.forEach((trace, result) -> console.out().println("  " + trace + ": " + said(rule, result)));
      if (!results.isEmpty()) {
        console.out().println();
      }
    }
    if (!results.isEmpty()) {
      console.remind(cautions());
    }
    return results.values().stream().allMatch(result -> result.reading().failure().isEmpty())
        ? ExitStatus.NOTHING_BROKEN
        : ExitStatus.WRONG_INPUT;
  }

  private int handbook(RuleFiles rules, List<Rule> chosen, String folder, List<String> traces, Console console) {
    if (!traces.isEmpty()) {
      throw new CommandException("--out: a handbook says what rules are, not what " + traces.get(0)
          + " shows; leave the trace out");
    }
    Path index = HandbookFolder.write(
        Handbooks.of(rules.book(), chosen, rules.compilation().examples(), Version.TEXT), folder);
    console.out().println("the handbook is written; open " + index);
    console.remind(cautions());
    return ExitStatus.NOTHING_BROKEN;
  }

  private static List<Rule> chosen(RuleFiles rules, List<String> identifiers) {
    List<Rule> all = rules.book().rules();
    if (identifiers.isEmpty()) {
      return all;
    }
    List<Rule> chosen = new ArrayList<>();
    for (String identifier : identifiers) {
      Rule rule = all.stream().filter(it -> it.id().equals(identifier)).findFirst().orElse(null);
      if (rule == null) {
        String hint = NearName.of(identifier, all.stream().map(Rule::id).toList())
            .map(nearest -> "; did you mean '" + nearest + "'?").orElse("");
        throw new CommandException("--rule: there is no rule '" + identifier + "'" + hint);
      }
      chosen.add(rule);
    }
    return chosen;
  }

  private static Map<String, TraceResult> results(RuleFiles rules, List<String> traces, TraceOptions reading) {
    Map<String, TraceResult> results = new LinkedHashMap<>();
    if (!traces.isEmpty()) {
      SourceJudge judge = new SourceJudge(rules.book(), 0, false, 1);
      for (Path trace : TraceFiles.of(traces)) {
        EventSource source = BegunSource.of(new RecordedSource(trace, reading), reading.bindings().beginning(),
            rules.book());
        results.put(trace.toString(), judge.judge(source, Progress.NONE));
      }
    }
    return results;
  }

  private static String said(Rule rule, TraceResult result) {
    if (!result.reading().failure().isEmpty()) {
      return "not read: " + result.reading().failure();
    }
    RuleResult given = result.rules().get(rule.index());
    long problems = result.reading().problemCount();
    return FindingWords.verdict(given.verdict()) + " (" + FindingWords.obligations(given.obligations()) + ")"
        + (problems == 0 ? "" : "; " + ValueText.count(problems) + (problems == 1 ? " problem" : " problems")
            + " in reading it");
  }
}

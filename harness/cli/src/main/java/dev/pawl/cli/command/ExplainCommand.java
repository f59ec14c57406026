package dev.pawl.cli.command;

import dev.pawl.cli.CommandException;
import dev.pawl.cli.Console;
import dev.pawl.cli.ExitStatus;
import dev.pawl.cli.option.CheckOptions;
import dev.pawl.cli.option.Nearest;
import dev.pawl.cli.option.RuleOptions;
import dev.pawl.grammar.rules.explain.Explanation;
import dev.pawl.grammar.rules.explain.RuleExplainer;
import dev.pawl.grammar.rules.model.Rule;
import dev.pawl.report.model.RuleResult;
import dev.pawl.report.model.TraceResult;
import dev.pawl.report.text.ExplanationText;
import dev.pawl.report.words.FindingWords;
import dev.pawl.report.words.ValueText;
import dev.pawl.run.SourceJudge;
import dev.pawl.run.files.RuleFiles;
import dev.pawl.run.files.TraceFiles;
import dev.pawl.run.source.RecordedSource;
import dev.pawl.trace.TraceOptions;
import dev.pawl.trace.intake.Progress;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Model.OptionSpec;
import picocli.CommandLine.Model.PositionalParamSpec;
import picocli.CommandLine.ParseResult;

/** {@code pawl explain}: rules in plain words and as formulas, and whether given traces exercise them. */
public final class ExplainCommand implements Command {

  @Override
  public CommandSpec spec() {
    CommandSpec spec = CommandSpec.create().name("pawl explain");
    spec.usageMessage()
        .description("Says each rule in plain words and as a formula, when its verdict is final, the signals it needs,"
        + " and"
        + " what exercises it. With traces, also whether they do.");
    spec.addOption(several("PATH",
        "Rule file, or folder of rule files; can be given several times. Arguments that end in .rules are"
        + " rule files too.", "-r", "--rules"));
    spec.addOption(RuleOptions.usableFolders());
    spec.addOption(several("ID", "Only the rule of this identifier; can be given several times.", "--rule"));
    spec.addOption(OptionSpec.builder("--bindings").paramLabel("FILE").type(String.class).arity("1")
        .description("Bindings: which tag of the trace is which signal.").build());
    spec.addOption(CheckOptions.timeUnit());
    spec.addOption(CheckOptions.leniency());
    spec.addPositional(PositionalParamSpec.builder().index("0..*").paramLabel("TRACE").type(List.class)
        .auxiliaryTypes(String.class)
        .arity("0..*").description("Recorded traces, or folders of them.").build());
    return spec;
  }

  private static OptionSpec several(String label, String description, String... names) {
    return OptionSpec.builder(names).paramLabel(label).type(List.class).auxiliaryTypes(String.class).arity("1")
        .description(description).build();
  }

  @Override
  public int run(ParseResult words, Console console) {
    List<String> paths = new ArrayList<>(words.matchedOptionValue("--rules", List.<String>of()));
    List<String> traces = new ArrayList<>();
    for (String path : words.matchedPositionalValue(0, List.<String>of())) {
      (RuleOptions.isRuleFile(path) ? paths : traces).add(path);
    }
    if (paths.isEmpty()) {
      throw new CommandException("no rules: give a rule file or folder with --rules ('pawl explain --help' shows how)");
    }
    RuleFiles rules = RuleOptions.load(paths, RuleOptions.usableFolders(words), console);
    console.err().print(rules.compilation().rendered());
    List<Rule> chosen = chosen(rules, words.matchedOptionValue("--rule", List.<String>of()));
    Optional<String> bindings = Optional.ofNullable(words.matchedOptionValue("--bindings", (String) null));
    TraceOptions reading = TraceOptions.of(rules.book()).withLenient(words.hasMatchedOption("--lenient"))
        .withBindings(CheckOptions.bindings(bindings, rules.book(), console).bindings());
    reading = CheckOptions.timeScale(words).map(reading::withTimeScale).orElse(reading);
    Map<String, TraceResult> results = results(rules, traces, reading, console);
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

  private static List<Rule> chosen(RuleFiles rules, List<String> identifiers) {
    List<Rule> all = rules.book().rules();
    if (identifiers.isEmpty()) {
      return all;
    }
    List<Rule> chosen = new ArrayList<>();
    for (String identifier : identifiers) {
      Rule rule = all.stream().filter(it -> it.id().equals(identifier)).findFirst().orElse(null);
      if (rule == null) {
        String nearest = Nearest.to(identifier, all.stream().map(Rule::id).toArray(String[]::new));
        throw new CommandException("--rule: there is no rule '" + identifier + "'"
            + (nearest.isEmpty() ? "" : "; did you mean '" + nearest + "'?"));
      }
      chosen.add(rule);
    }
    return chosen;
  }

  private static Map<String, TraceResult> results(RuleFiles rules, List<String> traces, TraceOptions reading,
      Console console) {
    Map<String, TraceResult> results = new LinkedHashMap<>();
    if (!traces.isEmpty()) {
      SourceJudge judge = new SourceJudge(rules.book(), 0, false, 1);
      for (Path trace : TraceFiles.of(traces)) {
        results.put(trace.toString(), judge.judge(new RecordedSource(trace, reading), Progress.NONE));
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

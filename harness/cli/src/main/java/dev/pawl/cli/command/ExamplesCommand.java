package dev.pawl.cli.command;

import dev.pawl.cli.CommandException;
import dev.pawl.cli.Console;
import dev.pawl.cli.ExitStatus;
import dev.pawl.cli.option.Operands;
import dev.pawl.cli.option.Option;
import dev.pawl.cli.option.RuleOptions;
import dev.pawl.cli.option.Syntax;
import dev.pawl.grammar.rules.model.RuleExample;
import dev.pawl.report.words.ValueText;
import dev.pawl.run.ExampleCheck;
import dev.pawl.run.files.RuleFiles;
import java.util.List;
import java.util.Optional;
import picocli.CommandLine.ParseResult;

/** {@code pawl examples}: whether the rules give what the examples in their files say. */
public final class ExamplesCommand implements Command {

  private static final Option<List<String>> RULES = RuleOptions.RULES.withHelp(
      "Rule file, or folder of rule files; can be given several times, or named without --rules.");

  @Override
  public Syntax syntax() {
    return Syntax.of(List.of(RULES, RuleOptions.USE_FROM), Operands.unsaid("PATH"),
        "Runs the examples that stand in rule files: does each rule give the verdict that its example states?",
        "Exit status: 1 if one does not, 2 if the rules have errors or no example, else 0.");
  }

  @Override
  public int run(ParseResult words, Console console) {
    RuleFiles rules = RuleOptions.ofAll(words).load(console);
    List<RuleExample> examples = rules.compilation().examples();
    if (examples.isEmpty()) {
      throw new CommandException("these rule files hold no example");
    }
    long wrong = 0;
    for (RuleExample example : examples) {
      Optional<String> difference = ExampleCheck.difference(example, rules.book());
      if (difference.isPresent()) {
        wrong++;
        console.out().println(example.position() + ": " + rules.book().rules().get(example.rule()).id() + " \""
            + example.title() + "\": "
            + difference.get());
      }
    }
    console.out().println(ValueText.count(examples.size()) + (examples.size() == 1 ? " example, " : " examples, ")
        + (wrong == 0 ? "all as stated" : ValueText.count(wrong) + " not as stated"));
    console.remind(cautions());
    return wrong == 0 ? ExitStatus.NOTHING_BROKEN : ExitStatus.RULE_BROKEN;
  }
}

package dev.pawl.cli.command;

import dev.pawl.cli.CommandException;
import dev.pawl.cli.Console;
import dev.pawl.cli.ExitStatus;
import dev.pawl.cli.option.Operands;
import dev.pawl.cli.option.RuleOptions;
import dev.pawl.cli.option.Syntax;
import dev.pawl.run.files.RuleFiles;
import dev.pawl.run.ride.Proposal;
import java.nio.file.Path;
import java.util.List;
import picocli.CommandLine.ParseResult;

/** {@code pawl propose}: what the bindings of a log might be, for a person to confirm. */
public final class ProposeCommand implements Command {

  @Override
  public Syntax syntax() {
    return Syntax.of(List.of(RuleOptions.RULES, RuleOptions.USE_FROM),
        Operands.any("LOG", "A log as the site writes it: a table or JSON Lines, packed or not."),
        "Looks at a log and prints the bindings that it speaks for: which tag might be which signal, by name and by how"
            + " it behaves, how times and values are written, and how often each signal was looked at. Each line begins"
            + " with 'maybe', and no command takes it before a person has taken that word away.");
  }

  @Override
  public int run(ParseResult words, Console console) {
    List<String> logs = RuleOptions.others(words);
    if (logs.size() != 1) {
      throw new CommandException("name one log ('" + words.commandSpec().name() + " --help' shows how)");
    }
    RuleFiles rules = RuleOptions.of(words).load(console);
    console.out().print(Proposal.of(rules.book(), Path.of(logs.get(0))));
    return ExitStatus.NOTHING_BROKEN;
  }
}

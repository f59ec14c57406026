package dev.pawl.cli.command;

import dev.pawl.cli.CommandException;
import dev.pawl.cli.Console;
import dev.pawl.cli.option.FleetOptions;
import dev.pawl.cli.option.Operands;
import dev.pawl.cli.option.Syntax;
import java.util.List;
import java.util.ServiceLoader;
import picocli.CommandLine.ParseResult;

/** {@code pawl fleet}: what is too much for one machine, handed over to where Flink is. */
public final class FleetCommand implements Command {

  private static final String ARCHIVE = "archive";

  @Override
  public Syntax syntax() {
    return Syntax.of(FleetOptions.ALL, Operands.any("archive MANIFEST",
        "The table that says which ride, rules, bindings and session each trace belongs to."),
        "Judges an archive of sessions on many slots, of this process, of worker processes or of a cluster of Apache"
            + " Flink. Each session is judged by one slot; what they come to is to the byte what 'pawl check' says of"
            + " them. A session that cannot be read is a result.",
        "Written are a report of each ride, tables with a row for each rule and session, and a summary: margins that"
            + " get less from month to month, verdicts that appear, sessions unlike the others.",
        "Exit status: 0 nothing broken, 1 a rule broken, 2 wrong input or command, or a session that could not be"
            + " judged.");
  }

  @Override
  public int run(ParseResult words, Console console) {
    List<String> operands = Operands.of(words);
    if (operands.size() != 2 || !operands.get(0).equals(ARCHIVE)) {
      throw new CommandException("say what the fleet is to do: pawl fleet archive MANIFEST --out DIR"
          + " ('pawl fleet --help' shows how)");
    }
    FleetOptions options = FleetOptions.of(words);
    return fleet().archive(operands.get(1), options, console);
  }

  private static Fleet fleet() {
    return ServiceLoader.load(Fleet.class).findFirst().orElseThrow(() -> new CommandException("a fleet is an archive"
        + " of its own and is not here: unpack pawl-fleet-VERSION.zip over the folder of pawl"));
  }
}

package dev.pawl.cli.command;

import dev.pawl.cli.Console;
import dev.pawl.cli.ExitStatus;
import dev.pawl.cli.option.Operands;
import dev.pawl.cli.option.Option;
import dev.pawl.cli.option.Syntax;
import dev.pawl.editor.EditorServer;
import dev.pawl.run.Version;
import java.util.List;
import java.util.Optional;
import picocli.CommandLine.ParseResult;

/** {@code pawl editor}: a language server for an editor that starts it. */
public final class EditorCommand implements Command {

  private static final Option<Boolean> STDIO = Option.flag(
      "Said by editors that know servers of other kinds; it changes nothing.", "--stdio");

  @Override
  public Syntax syntax() {
    return Syntax.of(List.of(STDIO), Operands.unsaid("WORD"),
        "Answers an editor that starts it, over standard input and output by the Language Server Protocol: what is"
            + " wrong in rule files, names and units to complete, rules in plain words, where names are declared, the"
            + " canonical layout.",
        "Exit status: 0 if the editor said that it was done, else 1.");
  }

  @Override
  public int run(ParseResult words, Console console) {
    boolean done = EditorServer.serve(System.in, console.out(), Optional.of(console.home().resolve("rules")),
        Version.TEXT);
    return done ? ExitStatus.NOTHING_BROKEN : ExitStatus.RULE_BROKEN;
  }
}

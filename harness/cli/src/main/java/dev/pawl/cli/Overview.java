package dev.pawl.cli;

import dev.pawl.cli.command.Commands;
import dev.pawl.engine.Caution;
import java.util.stream.Collectors;
import java.util.stream.Stream;

/** The first page of help. */
final class Overview {

  static final String TEXT = "pawl: rule by rule, what a recorded ride shows about its lift and block control logic\n\n"
      + Stream.of(Commands.values()).flatMap(command -> command.use().lines())
          .map(line -> line.startsWith(" ") ? "       " + line : "  pawl " + line)
          .collect(Collectors.joining("\n"))
      + """

        pawl --version                         the version
        pawl help COMMAND                      how a command is used

      Exit status: 0 nothing broken; 1 a rule broken; 2 the input or the command is wrong;
      3 nothing broken but something undecided or not exercised, with --require-proof only;
      4 nothing broken but what --decisions accepts, or an acceptance that is expired or about nothing,
        or a review of another report.

      """ + Caution.OF_PUBLISHING.stream().map(caution -> caution.text() + "\n").collect(Collectors.joining());

  private Overview() {}
}

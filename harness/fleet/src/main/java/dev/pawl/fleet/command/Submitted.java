package dev.pawl.fleet.command;

import dev.pawl.cli.Console;
import dev.pawl.cli.Interruption;
import dev.pawl.cli.command.CommandLines;
import dev.pawl.cli.command.FleetCommand;
import java.io.PrintStream;
import java.net.URISyntaxException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;

/**
 * The program that Flink's own command submits, or that a cluster has alone. Its words are those behind
 * {@code pawl fleet}; what it says goes where Flink puts what programs say.
 */
public final class Submitted {

  private static final String HOME = "PAWL_HOME";

  private Submitted() {}

  /**
   * Does the work, and merges what it comes to.
   *
   * @throws RuntimeException if it does not come to its end, for Flink to show; a session that could not be judged is
   *     none of its kind
   */
  public static void main(String[] words) {
    PrintStream out = new PrintStream(System.out, true, StandardCharsets.UTF_8);
    PrintStream err = new PrintStream(System.err, true, StandardCharsets.UTF_8);
    Console console = new Console(out, err, System.getenv(), home(), new Interruption());
    int status = CommandLines.run(new FleetCommand(new FleetJobs(true)), "fleet", words, console);
    out.println("pawl: exit status " + status);
  }

  /** The folder of pawl, where its rule library is: where the variable says, or in which this program lies. */
  private static Path home() {
    String stated = System.getenv(HOME);
    if (stated != null) {
      return Path.of(stated);
    }
    try {
      Path jar = Path.of(Submitted.class.getProtectionDomain().getCodeSource().getLocation().toURI());
      return jar.resolve("../../../..").normalize();
    } catch (URISyntaxException e) {
      throw new IllegalStateException(e);
    }
  }
}

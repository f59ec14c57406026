package dev.pawl.cli;

import java.io.OutputStream;
import java.io.PrintStream;
import java.nio.file.Path;
import java.util.Map;

/**
 * The run from which the launcher's class archive is made: the usual commands, once, with their output thrown away, and at last one as a user
 * starts it, which ends the process.
 */
public final class Training {

  private Training() {}

  public static void main(String[] arguments) {
    PrintStream nowhere = new PrintStream(OutputStream.nullOutputStream());
    Path home = Path.of(System.getProperty("pawl.home", ""));
    Main main = new Main(new Console(nowhere, nowhere, Map.of("PAWL_TERMINAL", "out,err"), home, new Interruption()));
    Path folder = home.resolve("harness/cli/src/main/training");
    String rules = folder.resolve("training.rules").toString();
    String trace = folder.resolve("training.csv").toString();
    String out = home.resolve("harness/cli/target/training-report").toString();
    main.run("--version");
    main.run("check", "--help");
    main.run("check", "--rules", rules, trace);
    main.run("check", "--rules", rules, "--out", out, trace);
    main.run("check", "--lenient", "--rules", home.resolve("fixtures/kestrel-ridge/kestrel-ridge.rules").toString(), trace);
    main.run("explain", "--rules", rules, trace);
    main.run("format", "--check", rules);
    main.run("compare", out + "/report.json", out + "/report.json");
    Main.main(new String[] {"--version"});
  }
}

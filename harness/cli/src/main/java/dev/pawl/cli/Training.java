package dev.pawl.cli;

import java.io.OutputStream;
import java.io.PrintStream;
import java.nio.file.Path;
import java.util.Map;

/** The run from which the launcher's class archive is made: the usual commands, once, with their output thrown away. */
public final class Training {

  private Training() {}

  public static void main(String[] arguments) {
    PrintStream nowhere = new PrintStream(OutputStream.nullOutputStream());
    Console console = new Console(nowhere, nowhere, Map.of(), Path.of(System.getProperty("pawl.home", "")), new Interruption());
    Main main = new Main(console);
    main.run("--version");
    main.run("check", "--help");
    main.run("compare", "--help");
  }
}

package dev.pawl.cli;

import java.io.ByteArrayOutputStream;
import java.io.PrintStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.Map;

/** One command run in the process, with what it wrote and its exit status. */
record Run(int status, String out, String err) {

  static Run of(String... words) {
    return with(Map.of(), new Interruption(), words);
  }

  static Run with(Map<String, String> environment, Interruption interruption, String... words) {
    return at(Path.of("../.."), environment, interruption, words);
  }

  static Run at(Path home, Map<String, String> environment, Interruption interruption, String... words) {
    ByteArrayOutputStream out = new ByteArrayOutputStream();
    ByteArrayOutputStream err = new ByteArrayOutputStream();
    PrintStream outStream = new PrintStream(out, true, StandardCharsets.UTF_8);
    PrintStream errStream = new PrintStream(err, true, StandardCharsets.UTF_8);
    int status = new Main(new Console(outStream, errStream, environment, home, interruption)).run(words);
    return new Run(status, out.toString(StandardCharsets.UTF_8), err.toString(StandardCharsets.UTF_8));
  }
}

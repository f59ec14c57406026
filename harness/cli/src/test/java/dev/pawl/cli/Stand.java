package dev.pawl.cli;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;

/** A test stand with one rule, and logic that keeps it. */
final class Stand {

  private static final String RULES = """
      ride "Test stand"
      resolution 1 ms
      input  estop_chain : bool
      input  counter     : number
      output lift_run    : bool
      rule STOP-01 "E-stop stops the lift"
        severity critical
        basis practice
        when falls(estop_chain)
        must not lift_run within 100 ms
      rule COUNT-01 "The counter is no less than it began"
        severity minor
        basis practice
        always counter >= 0
      """;
  private static final String LOGIC = """
      PROGRAM Lift
      VAR_INPUT estop_chain : BOOL; END_VAR
      VAR_OUTPUT lift_run : BOOL; END_VAR
        lift_run := estop_chain;
      END_PROGRAM
      """;

  private Stand() {}

  /** Writes stand.rules and lift.st. */
  static void write(Path folder) throws IOException {
    Files.writeString(folder.resolve("stand.rules"), RULES);
    Files.writeString(folder.resolve("lift.st"), LOGIC);
  }

  /** Writes day.csv: a lift that runs on through so many stops. */
  static void writeDay(Path folder, int stops) throws IOException {
    StringBuilder rows = new StringBuilder("time_ms,signal,value\n0,lift_run,1\n");
    for (int i = 0; i < 2 * stops; i++) {
      rows.append(i * 250 + 1).append(",estop_chain,").append((i + 1) % 2).append('\n');
    }
    Files.writeString(folder.resolve("day.csv"), rows);
  }
}

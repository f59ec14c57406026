package dev.pawl.junit;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;

/** Rules and traces of somebody else: a rule that holds, one that is broken, and one that nothing puts to the test. */
final class Site {

  static final String RULES = """
      ride "Test stand"
      resolution 1 ms
      input  estop_chain : bool
      input  door_closed : bool
      output lift_run    : bool
      output horn        : bool
      rule STOP-01 "E-stop stops the lift"
        severity critical
        basis practice
        when falls(estop_chain)
        must not lift_run within 100 ms
      rule HORN-01 "The horn sounds at a stop"
        severity minor
        basis practice
        when falls(estop_chain)
        must horn within 1 s
      rule DOOR-01 "An open door stops the lift"
        severity major
        basis practice
        when falls(door_closed)
        must not lift_run within 100 ms
      """;
  static final String TRACE = """
      time_ms,signal,value
      0,estop_chain,1
      0,door_closed,1
      0,lift_run,1
      0,horn,0
      1000,estop_chain,0
      1300,lift_run,0
      1500,horn,1
      3000,lift_run,0
      """;
  static final String DECISIONS = """
      accept STOP-01 in "day.csv"
        because "the contactor was on order"
        by      "J. Smith"
        until   2999-12-31
      """;
  static final String LOGIC = """
      PROGRAM Lift
      VAR_INPUT estop_chain : BOOL; door_closed : BOOL; END_VAR
      VAR_OUTPUT lift_run : BOOL; horn : BOOL; END_VAR
        lift_run := estop_chain AND door_closed;
        horn := NOT estop_chain;
      END_PROGRAM
      """;

  private Site() {}

  static void write(Path folder) throws IOException {
    Files.createDirectories(folder);
    Files.writeString(folder.resolve("stand.rules"), RULES);
    Files.writeString(folder.resolve("day.csv"), TRACE);
    Files.writeString(folder.resolve("site.decisions"), DECISIONS);
    Files.writeString(folder.resolve("lift.st"), LOGIC);
    Files.writeString(folder.resolve("torn.csv"), "time_ms,signal,value\nnever,lift_run,1\n");
    Files.writeString(folder.resolve("wrong.rules"), "rule\n");
  }
}

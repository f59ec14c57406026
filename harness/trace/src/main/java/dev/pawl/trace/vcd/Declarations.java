package dev.pawl.trace.vcd;

import dev.pawl.trace.intake.Excerpt;
import dev.pawl.trace.intake.Intake;
import dev.pawl.trace.intake.ProblemKind;
import dev.pawl.trace.intake.UnreadableTrace;
import java.util.ArrayDeque;
import java.util.Deque;

/** What stands before the values: timescale, scopes and variables. */
final class Declarations {

  private final Intake intake;
  private final Variables variables;
  private final Deque<String> scopes = new ArrayDeque<>();
  private Timescale timescale = Timescale.NANOSECOND;
  private boolean timescaleStated;
  private boolean ended;

  Declarations(Intake intake) {
    this.intake = intake;
    this.variables = new Variables(intake);
  }

  Variables variables() {
    return variables;
  }

  Timescale timescale() {
    return timescale;
  }

  boolean ended() {
    return ended;
  }

  /** Takes a whole command, without its {@code $end}. */
  void command(String keyword, String text, long line) throws UnreadableTrace {
    switch (keyword) {
      case "$timescale" -> timescale(text, line);
      case "$scope" -> scopes.addLast(text.substring(text.lastIndexOf(' ') + 1));
      case "$upscope" -> scopes.pollLast();
      case "$var" -> variable(text, line);
      case "$enddefinitions" -> end(line);
      default -> {
        // Dates, versions and comments mean nothing to a rule.
      }
    }
  }

  private void timescale(String text, long line) throws UnreadableTrace {
    timescale = Timescale.of(text).orElse(null);
    if (timescale == null) {
      throw intake.problems().fatal(ProblemKind.UNREADABLE, line, 1, Excerpt.of(text) + " is no timescale",
          "write a whole number and one of s, ms, us, ns, ps and fs, such as: $timescale 1 ms $end");
    }
    timescaleStated = true;
  }

  private void variable(String text, long line) {
    String[] words = text.split(" ");
    if (words.length < 4 || !words[1].matches("[0-9]{1,6}")) {
      intake.problems().add(ProblemKind.MALFORMED, line, 1, "this $var declaration is not complete",
          "write: $var TYPE SIZE CODE NAME $end");
      return;
    }
    String name = words[3].replaceFirst("\\[-?[0-9]+:-?[0-9]+]$", "");
    if (words.length > 4 && words[4].matches("\\[-?[0-9]+]")) {
      name += words[4];
    }
    String path = scopes.isEmpty() ? name : String.join(".", scopes) + "." + name;
    variables.declare(words[2], path, name, words[0].equals("integer"), Integer.parseInt(words[1]), line);
  }

  private void end(long line) throws UnreadableTrace {
    if (!timescaleStated) {
      throw intake.problems().fatal(ProblemKind.UNREADABLE, line, 1, "the dump states no timescale",
          "add one before $enddefinitions, such as: $timescale 1 ms $end");
    }
    ended = true;
    variables.seal();
  }
}

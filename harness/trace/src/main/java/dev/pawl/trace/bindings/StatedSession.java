package dev.pawl.trace.bindings;

import dev.pawl.grammar.source.Diagnostic;
import dev.pawl.grammar.source.Position;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalLong;

/**
 * How recorded traces belong together.
 *
 * @param joined whether all that are given are one session
 * @param reorder nanoseconds, how much later than a later row a row may come in its file
 * @param clocks clocks that are wrong; the first that fits a file counts
 */
public record StatedSession(boolean joined, long reorder, List<Clock> clocks) {

  public static final StatedSession NONE = new StatedSession(false, 0, List.of());

  /**
   * A logger whose clock is wrong.
   *
   * @param files the name of its file, without folders; {@code *} stands for anything
   * @param ahead nanoseconds by which its times are too late
   * @param estimated whether that is to be told by signals that other files have too
   */
  public record Clock(String files, long ahead, boolean estimated) {

    boolean isOf(String name) {
      StringBuilder pattern = new StringBuilder();
      for (String part : files.split("\\*", -1)) {
        pattern.append(pattern.isEmpty() ? "" : ".*").append(java.util.regex.Pattern.quote(part));
      }
      return name.matches(pattern.toString());
    }
  }

  public StatedSession {
    clocks = List.copyOf(clocks);
  }

  /** What is stated of a file's clock. */
  public Optional<Clock> clockOf(String fileName) {
    return clocks.stream().filter(clock -> clock.isOf(fileName)).findFirst();
  }

  /** Reads the section {@code session} of a bindings file. */
  static StatedSession read(List<Entry> entries, List<Diagnostic> diagnostics) {
    boolean joined = false;
    long reorder = 0;
    List<Clock> clocks = new ArrayList<>();
    for (Entry entry : entries) {
      List<Token> tokens = entry.tokens();
      if (tokens.size() == 1 && tokens.get(0).is("joined")) {
        joined = true;
      } else if (tokens.size() == 3 && tokens.get(0).is("reorder")) {
        reorder = duration(tokens, 1, diagnostics);
      } else if (tokens.size() == 5 && tokens.get(0).is("clock")
          && (tokens.get(2).is("ahead") || tokens.get(2).is("behind"))) {
        long time = duration(tokens, 3, diagnostics);
        clocks.add(new Clock(tokens.get(1).text(), tokens.get(2).is("ahead") ? time : -time, false));
      } else if (tokens.size() == 3 && tokens.get(0).is("clock") && tokens.get(2).is("estimated")) {
        clocks.add(new Clock(tokens.get(1).text(), 0, true));
      } else {
        error(diagnostics, entry.position(), "section 'session' says how recorded traces belong together",
            "write: joined; or: reorder 2 s; or: clock \"drive-*.csv\" ahead 1.5 s, or behind; or: clock"
                + " \"drive-*.csv\" estimated");
      }
    }
    return new StatedSession(joined, reorder, clocks);
  }

  private static long duration(List<Token> tokens, int at, List<Diagnostic> diagnostics) {
    OptionalLong time = SpanReader.read(tokens.get(at), tokens.get(at + 1));
    if (time.isEmpty()) {
      error(diagnostics, tokens.get(at).position(), "'" + tokens.get(at).text() + " " + tokens.get(at + 1).text()
          + "' is no time", "write a number and one of us, ms, s and min, such as 100 ms");
    }
    return time.orElse(0);
  }

  private static void error(List<Diagnostic> diagnostics, Position position, String message, String hint) {
    diagnostics.add(Diagnostic.error(position, message, hint));
  }
}

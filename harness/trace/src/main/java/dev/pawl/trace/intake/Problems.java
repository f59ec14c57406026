package dev.pawl.trace.intake;

import dev.pawl.grammar.source.Diagnostic;
import dev.pawl.grammar.source.Position;
import java.util.ArrayList;
import java.util.List;
import java.util.function.LongConsumer;
import java.util.function.Supplier;

/** The problems of one trace: all are counted by kind, the first few are kept in words. */
public final class Problems {

  private final String file;
  private final int listed;
  private final List<Diagnostic> diagnostics = new ArrayList<>();
  private final long[] counts = new long[ProblemKind.values().length];
  private final long[] firstLines = new long[ProblemKind.values().length];
  private LongConsumer whenLost = line -> { };

  /**
   * An empty collection.
   *
   * @param file name of the trace
   * @param listed how many problems to keep in words
   */
  public Problems(String file, int listed) {
    this.file = file;
    this.listed = listed;
  }

  /** Has somebody told the line of each row of which nobody can say what signal it was of. */
  void whenLost(LongConsumer told) {
    whenLost = told;
  }

  /** Counts a problem, and keeps it in words if there is room. */
  public void add(ProblemKind kind, long line, int column, int length, Supplier<String> message,
      Supplier<String> hint) {
    if (counts[kind.ordinal()]++ == 0) {
      firstLines[kind.ordinal()] = line;
    }
    if (diagnostics.size() < listed) {
      Position position = new Position(file, (int) Math.min(line, Integer.MAX_VALUE), column, Math.max(1, length));
      diagnostics.add(Diagnostic.error(position, message.get(), hint.get()));
    }
    if (kind.losesSignal()) {
      whenLost.accept(line);
    }
  }

  /** Counts a problem that needs no line. */
  public void add(ProblemKind kind, long line, int column, String message, String hint) {
    add(kind, line, column, 1, () -> message, () -> hint);
  }

  /** Counts one more problem like an earlier one, without words. */
  public void again(ProblemKind kind) {
    counts[kind.ordinal()]++;
  }

  /** Counts the problem that makes the rest unreadable. */
  public UnreadableTrace fatal(ProblemKind kind, long line, int column, String message, String hint) {
    add(kind, line, column, message, hint);
    return new UnreadableTrace();
  }

  public long total() {
    long total = 0;
    for (long count : counts) {
      total += count;
    }
    return total;
  }

  /** The first problems, in words. */
  public List<Diagnostic> diagnostics() {
    return List.copyOf(diagnostics);
  }

  /** The kinds that occurred. */
  public List<ProblemCount> counts() {
    List<ProblemCount> result = new ArrayList<>();
    for (ProblemKind kind : ProblemKind.values()) {
      if (counts[kind.ordinal()] > 0) {
        result.add(new ProblemCount(kind, counts[kind.ordinal()], firstLines[kind.ordinal()]));
      }
    }
    return result;
  }
}

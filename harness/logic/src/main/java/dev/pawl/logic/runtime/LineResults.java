package dev.pawl.logic.runtime;

import java.util.Arrays;

/**
 * What the watched lines of a program came to in one scan: whether each ran, and all that it stored or decided there as
 * one number, so that two programs can be compared scan by scan. Compiled code calls it for watched lines only.
 */
public final class LineResults {

  private static final long SPREAD = 0x9E3779B97F4A7C15L;

  private final boolean[] ran;
  private final long[] results;

  /**
   * For a program.
   *
   * @param lines how many of its lines are watched
   */
  public LineResults(int lines) {
    ran = new boolean[lines];
    results = new long[lines];
  }

  /** Forgets the scan before. */
  public void begin() {
    Arrays.fill(ran, false);
    Arrays.fill(results, 0);
  }

  /** How many lines are watched. */
  public int count() {
    return ran.length;
  }

  /** Whether a line ran in this scan. */
  public boolean ran(int line) {
    return ran[line];
  }

  /** What it came to; the same for the same values in the same order, and 0 where it gave none. */
  public long result(int line) {
    return results[line];
  }

  /** A line ran. */
  public static void run(int line, LogicMemory memory) {
    memory.lines.ran[line] = true;
  }

  /** A line gave a value. */
  public static void give(long value, int line, LogicMemory memory) {
    memory.lines.take(value, line);
  }

  /** A line gave a value that spans several slots, which lie in memory now. */
  public static void giveAll(int address, int size, int line, LogicMemory memory) {
    for (int i = address; i < address + size; i++) {
      memory.lines.take(memory.words[i], line);
      memory.lines.take(memory.texts[i] == null ? 0 : memory.texts[i].hashCode(), line);
    }
  }

  private void take(long value, int line) {
    ran[line] = true;
    long mixed = (results[line] ^ value) * SPREAD;
    results[line] = (mixed ^ mixed >>> 29) + 1;
  }
}

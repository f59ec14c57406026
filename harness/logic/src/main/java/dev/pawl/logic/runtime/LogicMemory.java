package dev.pawl.logic.runtime;

import dev.pawl.grammar.logic.model.Image;
import java.util.BitSet;

/**
 * The memory of a running program: one row of slots, and the clock that its timers see. Compiled code reads and writes
 * it directly.
 */
public final class LogicMemory {

  /** The words of all slots. */
  public final long[] words;

  /** The strings of all slots. */
  public final String[] texts;

  /** First values of all words. */
  public final long[] initialWords;

  /** First values of all strings. */
  public final String[] initialTexts;

  /**
   * For each slot, where it was last written: the number of the file in the upper 8 bits, the line in the lower 24; 0
   * for never.
   */
  public final int[] writers;

  /** Virtual time of the scan, nanoseconds. */
  public long now;

  /** Passes through loops, weighted with the statements in them, that the scan may still make. */
  public long budget;

  /** What the watched lines came to in this scan. */
  public final LineResults lines;

  /** Whether timers with PT = 0 are done on the scan on which their input changes. */
  final boolean zeroTimeAtOnce;

  final boolean pulseFollowsPulse;
  final boolean firstFallingEdge;
  final boolean offDelayStartsOn;

  /**
   * A memory with first values, as after power-up.
   *
   * @param watchedLines how many lines of the program are watched
   */
  public LogicMemory(Image image, BlockOptions options, int watchedLines) {
    this.lines = new LineResults(watchedLines);
    this.initialWords = image.words().clone();
    this.initialTexts = image.texts().clone();
    this.words = image.words().clone();
    this.texts = image.texts().clone();
    this.writers = new int[words.length];
    this.zeroTimeAtOnce = options.zeroTime() == BlockOptions.ZeroTime.SAME_SCAN;
    this.pulseFollowsPulse = options.pulseEdge() == BlockOptions.PulseEdge.NEXT_PULSE;
    this.firstFallingEdge = options.fallingEdge() == BlockOptions.FirstFallingEdge.PULSE;
    this.offDelayStartsOn = options.offDelayStart() == BlockOptions.OffDelayStart.ON_FOR_PT;
  }

  /** Sets everything to its first value, but for the slots kept. */
  public void restart(BitSet kept) {
    for (int i = kept.nextClearBit(0); i < words.length; i = kept.nextClearBit(i + 1)) {
      words[i] = initialWords[i];
      texts[i] = initialTexts[i];
    }
  }

  /** Pays for a pass through a loop, or for a call. */
  public void spend(int statements) {
    budget -= statements;
    if (budget < 0) {
      throw new LogicFault("the scan ran more statements in loops and calls than the watchdog allows, so it counts as "
          + "endless");
    }
  }

  /** Copies slots, strings included. */
  public void copy(int target, int source, int size) {
    System.arraycopy(words, source, words, target, size);
    System.arraycopy(texts, source, texts, target, size);
  }

  /** Gives slots their first values. */
  public void reset(int address, int size) {
    System.arraycopy(initialWords, address, words, address, size);
    System.arraycopy(initialTexts, address, texts, address, size);
  }

  /** Notes where slots were written. */
  public void wrote(int address, int size, int place) {
    for (int i = address; i < address + size; i++) {
      writers[i] = place;
    }
  }
}

package dev.pawl.trace.intake;

/** Is told now and then how far reading has come, and can end it. */
@FunctionalInterface
public interface Progress {

  /** Reads to the end and tells nobody. */
  Progress NONE = (bytes, lines) -> true;

  /**
   * Takes note of progress.
   *
   * @param bytes taken from the file so far, before decompression
   * @param lines lines done so far
   * @return whether to go on
   */
  boolean reached(long bytes, long lines);
}

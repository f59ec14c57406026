package dev.pawl.trace.intake;

/** Where rows go once tag, time and value are read. */
public interface RowSink {

  /**
   * Takes an event of a channel that carries a signal.
   *
   * @param value engine value
   */
  void accept(long time, int channel, long value, long line);
}

package dev.pawl.engine;

/** Where events go: a file reader, a broker, a simulation and a fuzzer are all just callers of it. */
public interface EventSink {

  /**
   * The engine value that means "not known", for booleans, enumerations and numbers alike: the bits of not-a-number, so
   * that no number, {@code -0.0} included, can be taken for it.
   */
  long UNKNOWN = 0x7ff8_0000_0000_0000L;

  /**
   * Takes one event. Events must come in order of time; those of one time form one instant.
   *
   * @param time nanoseconds from the epoch or from the trace's start; never less than at the call before
   * @param signal index of the signal in the rule book
   * @param value 0 or 1; an enumeration index; {@link Double#doubleToRawLongBits} of a number in SI base units; or
   *     {@link #UNKNOWN}
   * @param line 1-based line of the trace it came from, for evidence; 0 where there is none; negative where a program
   *     under test caused it: then it stands for a line of that program, which only the one who ran the program can
   *     decode
   */
  void event(long time, int signal, long value, long line);

  /**
   * States that no event earlier than {@code time} will come any more, so that all deadlines before it can be judged.
   *
   * @param time nanoseconds, as in {@link #event}
   */
  void advanceTo(long time);
}

package dev.pawl.mqtt.payload;

import dev.pawl.mqtt.evidence.Anomaly;

/** Takes what payloads say. */
public interface ReadingTaker {

  /** No time is stated. */
  long NO_TIME = Long.MIN_VALUE;

  /**
   * A signal's value.
   *
   * @param signal index of the signal
   * @param value engine value; {@link dev.pawl.engine.EventSink#UNKNOWN} where the sender states that it is not good
   * @param stated nanoseconds since 1970 at which the sender took it, or {@link #NO_TIME}
   */
  void reading(int signal, long value, long stated);

  /**
   * A signal's value that belongs to an instant of the trace which is played.
   *
   * @param time nanoseconds, trace time
   */
  void traced(int signal, long value, long time);

  /**
   * Something that makes evidence doubtful.
   *
   * @param signal index of the signal that it concerns; -1 where that is not known
   * @param what what happened, with no more of a payload than a short excerpt
   */
  void anomaly(Anomaly anomaly, int signal, String what);
}

package dev.pawl.trace.intake;

import dev.pawl.trace.bytes.Feed;
import java.io.IOException;

/** The reader of one format. */
public interface Decoder {

  /**
   * Reads the whole stream into an intake.
   *
   * @return whether the end was reached; false if {@code progress} ended it
   * @throws UnreadableTrace if nothing more of the trace can be understood; the problem has been noted
   */
  boolean decode(Feed feed, Intake intake, Progress progress) throws IOException, UnreadableTrace;

  /** Lines read so far. */
  long lines();

  /** Times that stated something finer than a nanosecond, which was cut off. */
  long finerTimes();

  /** Whether times are dates rather than counted from a start of the trace's own. */
  boolean calendar();
}

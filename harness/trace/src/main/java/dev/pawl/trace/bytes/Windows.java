package dev.pawl.trace.bytes;

import java.io.IOException;
import java.util.Optional;

/**
 * A sliding view of a stream that always ends with a whole line. It can be read {@link Feed#LEAD} bytes before its start and
 * {@link Feed#PAD} bytes after its end, whatever stands there.
 */
public interface Windows {

  byte[] bytes();

  /** First byte of the window. */
  int start();

  /** First byte after the window: just after a line break. */
  int end();

  /**
   * Moves the window on.
   *
   * @param from the first byte that is still needed; everything before it is given up
   * @return whether the window has grown; if not, the stream has ended or the record at {@code from} is longer than
   *     {@link Feed#LONGEST}
   */
  boolean next(int from) throws IOException;

  /** Gives up everything up to the next line break, which may be far off; false if the stream ended first. */
  boolean skipLine() throws IOException;

  /** Whether the window reaches to the end of the stream. */
  boolean exhausted();

  /** Bytes taken from the file or stream so far, before decompression. */
  long position();

  /** Why the stream ended before its time, if it did; what came before is good, but for the line it ended in. */
  Optional<String> damage();
}

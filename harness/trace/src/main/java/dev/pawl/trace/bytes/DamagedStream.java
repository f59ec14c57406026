package dev.pawl.trace.bytes;

import java.io.IOException;

/** Compressed or encoded data that cannot be read further. */
final class DamagedStream extends IOException {

  private static final long serialVersionUID = 1;

  private final String remedy;

  DamagedStream(String message, Throwable cause) {
    this(message, "get a whole copy", cause);
  }

  DamagedStream(String message, String remedy, Throwable cause) {
    super(message, cause);
    this.remedy = remedy;
  }

  /** What to do about it. */
  String remedy() {
    return remedy;
  }
}

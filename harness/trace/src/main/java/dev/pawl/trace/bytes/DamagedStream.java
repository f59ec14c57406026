package dev.pawl.trace.bytes;

import java.io.IOException;

/** Compressed data that cannot be decompressed further. */
final class DamagedStream extends IOException {

  private static final long serialVersionUID = 1;

  DamagedStream(String message, Throwable cause) {
    super(message, cause);
  }
}

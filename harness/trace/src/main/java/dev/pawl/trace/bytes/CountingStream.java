package dev.pawl.trace.bytes;

import java.io.FilterInputStream;
import java.io.IOException;
import java.io.InputStream;

/** A stream that counts the bytes taken from it. */
final class CountingStream extends FilterInputStream {

  private long count;

  CountingStream(InputStream stream) {
    super(stream);
  }

  long count() {
    return count;
  }

  @Override
  public int read() throws IOException {
    int value = super.read();
    count += value < 0 ? 0 : 1;
    return value;
  }

  @Override
  public int read(byte[] bytes, int from, int length) throws IOException {
    int read = super.read(bytes, from, length);
    count += Math.max(0, read);
    return read;
  }

  @Override
  public boolean markSupported() {
    return false;
  }
}

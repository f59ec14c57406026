package dev.pawl.trace.bytes;

import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.Charset;
import java.nio.charset.StandardCharsets;

/** A stream in which text of one byte to a letter has become UTF-8. */
final class SingleByteStream extends InputStream {

  private static final int LONGEST = 4;

  private final InputStream stream;
  private final byte[][] letters = new byte[256][];
  private final byte[] raw = new byte[1 << 15];
  private int from;
  private int to;

  SingleByteStream(InputStream stream, Charset charset) {
    this.stream = stream;
    for (int value = 0; value < letters.length; value++) {
      letters[value] = new String(new byte[] {(byte) value}, charset).getBytes(StandardCharsets.UTF_8);
    }
  }

  @Override
  public int read() throws IOException {
    throw new UnsupportedOperationException("a feed reads blocks");
  }

  @Override
  public int read(byte[] bytes, int start, int length) throws IOException {
    if (length < LONGEST) {
      return 0;
    }
    if (from == to) {
      from = 0;
      to = Math.max(0, stream.read(raw, 0, raw.length));
      if (to == 0) {
        return -1;
      }
    }
    int at = start;
    while (from < to && start + length - at >= LONGEST) {
      for (byte part : letters[raw[from++] & 0xFF]) {
        bytes[at++] = part;
      }
    }
    return at - start;
  }

  @Override
  public void close() throws IOException {
    stream.close();
  }
}

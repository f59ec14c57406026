package dev.pawl.trace.output;

import dev.pawl.trace.time.TimeScale;
import dev.pawl.trace.time.TimeWriter;
import java.io.Closeable;
import java.io.IOException;
import java.io.OutputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;

/** A buffered way out for bytes, texts and whole numbers. */
public final class ByteSink implements Closeable {

  private static final int LONGEST_NUMBER = 20;

  private final OutputStream out;
  private final byte[] buffer = new byte[1 << 16];
  private int filled;

  public ByteSink(OutputStream out) {
    this.out = out;
  }

  public ByteSink text(String text) {
    return bytes(text.getBytes(StandardCharsets.UTF_8));
  }

  public ByteSink bytes(byte[] bytes) {
    if (filled + bytes.length > buffer.length) {
      drain();
    }
    if (bytes.length > buffer.length) {
      write(bytes, bytes.length);
    } else {
      System.arraycopy(bytes, 0, buffer, filled, bytes.length);
      filled += bytes.length;
    }
    return this;
  }

  /** Writes a number that is not negative. */
  public ByteSink number(long number) {
    if (filled + LONGEST_NUMBER > buffer.length) {
      drain();
    }
    filled = TimeWriter.digits(buffer, filled, number);
    return this;
  }

  public ByteSink character(char ascii) {
    if (filled == buffer.length) {
      drain();
    }
    buffer[filled++] = (byte) ascii;
    return this;
  }

  /** Writes a time on the given scale. */
  public ByteSink time(long nanoseconds, TimeScale scale) {
    if (filled + TimeWriter.LONGEST > buffer.length) {
      drain();
    }
    filled = TimeWriter.write(buffer, filled, nanoseconds, scale);
    return this;
  }

  private void drain() {
    int count = filled;
    filled = 0;
    write(buffer, count);
  }

  private void write(byte[] bytes, int count) {
    try {
      out.write(bytes, 0, count);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  /** Hands everything on. */
  public void flush() {
    drain();
    try {
      out.flush();
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  @Override
  public void close() throws IOException {
    try (OutputStream closing = out) {
      drain();
      closing.flush();
    } catch (UncheckedIOException e) {
      throw e.getCause();
    }
  }
}

package dev.pawl.cli.keep;

import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.io.InputStream;
import java.io.SequenceInputStream;
import java.nio.ByteBuffer;
import java.nio.channels.FileChannel;
import java.nio.charset.StandardCharsets;
import java.util.Arrays;
import java.util.Optional;

/**
 * What a recording's file holds, line by line.
 *
 * @param bytes bytes of the header and the rows, without a statement of the end behind them
 * @param lines lines in these bytes
 * @param ending the statement of the end; empty where the recording was cut off
 * @param torn what stands behind the last whole line
 */
public record KeptRows(long bytes, long lines, String ending, Optional<String> torn) {

  static final KeptRows NONE = new KeptRows(0, 0, "", Optional.empty());

  private static final String END = "# end:";
  private static final int BLOCK = 1 << 16;
  /** No row is as long as this. */
  private static final int LONGEST = 1 << 16;

  static KeptRows of(FileChannel file) throws IOException {
    long lines = 0;
    long lastLine = 0;
    long whole = 0;
    ByteBuffer block = ByteBuffer.allocate(BLOCK);
    for (long position = 0; file.read(block.clear(), position) > 0; position += block.position()) {
      for (int i = 0; i < block.position(); i++) {
        if (block.get(i) == '\n') {
          lines++;
          lastLine = whole;
          whole = position + i + 1;
        }
      }
    }
    String last = text(file, lastLine, whole);
    boolean ended = last.startsWith(END);
    String rest = text(file, whole, file.size());
    return new KeptRows(ended ? lastLine : whole, ended ? lines - 1 : lines, ended ? last : "",
        rest.isEmpty() ? Optional.empty() : Optional.of(rest));
  }

  private static String text(FileChannel file, long from, long to) throws IOException {
    ByteBuffer bytes = ByteBuffer.allocate((int) Math.min(LONGEST, to - from));
    while (bytes.hasRemaining() && file.read(bytes, from + bytes.position()) > 0) {
      // One call may bring only a part.
    }
    return new String(Arrays.copyOf(bytes.array(), bytes.position()), StandardCharsets.UTF_8);
  }

  /** The header, the rows and the statement of the end, out of the file's bytes. */
  InputStream of(InputStream file) {
    byte[] end = ending.getBytes(StandardCharsets.UTF_8);
    return new SequenceInputStream(new First(file, bytes), new ByteArrayInputStream(end));
  }

  /** The first bytes of a stream. */
  private static final class First extends InputStream {

    private final InputStream stream;
    private long left;

    private First(InputStream stream, long bytes) {
      this.stream = stream;
      this.left = bytes;
    }

    @Override
    public int read() throws IOException {
      byte[] one = new byte[1];
      return read(one, 0, 1) < 0 ? -1 : one[0] & 0xFF;
    }

    @Override
    public int read(byte[] into, int from, int count) throws IOException {
      int read = left == 0 ? -1 : stream.read(into, from, (int) Math.min(count, left));
      left -= Math.max(0, read);
      return read;
    }
  }
}

package dev.pawl.mqtt.feed;

import java.io.IOException;
import java.io.OutputStream;
import java.nio.ByteBuffer;
import java.nio.channels.SeekableByteChannel;

/** A file of rows that can be cut back to its last whole row. */
public final class RowFile extends OutputStream {

  private final SeekableByteChannel channel;
  private long written;
  private long wholeRows;

  /** A file of rows on a channel, which stands at its start. */
  public RowFile(SeekableByteChannel channel) {
    this(channel, 0);
  }

  /**
   * A file of rows on a channel, which stands behind the whole rows that are there already.
   *
   * @param earlier their bytes
   */
  public RowFile(SeekableByteChannel channel, long earlier) {
    this.channel = channel;
    this.written = earlier;
    this.wholeRows = earlier;
  }

  @Override
  public void write(int octet) throws IOException {
    write(new byte[] {(byte) octet}, 0, 1);
  }

  @Override
  public void write(byte[] bytes, int from, int count) throws IOException {
    ByteBuffer buffer = ByteBuffer.wrap(bytes, from, count);
    while (buffer.hasRemaining()) {
      int start = buffer.position();
      int done = channel.write(buffer);
      for (int i = start + done - 1; i >= start; i--) {
        if (bytes[i] == '\n') {
          wholeRows = written + i - start + 1;
          break;
        }
      }
      written += done;
    }
  }

  /** Takes away what stands after the last whole row. */
  void cutToWholeRows() {
    try {
      channel.truncate(wholeRows);
    } catch (IOException e) {
      // The medium fails altogether; the failure that led here is told already.
      written = wholeRows;
    }
  }

  @Override
  public void close() throws IOException {
    channel.close();
  }
}

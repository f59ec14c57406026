package dev.pawl.trace.bytes;

import java.io.Closeable;
import java.io.IOException;
import java.io.InputStream;
import java.util.Arrays;
import java.util.Optional;

/**
 * A stream as a sliding window over an array, which always ends with a whole line; a missing last line break is put in.
 * The array can be read {@link #LEAD} bytes before the window and {@link #PAD} bytes after it, whatever stands there.
 */
public final class Feed implements Closeable {

  /** Readable bytes before the window. */
  public static final int LEAD = 32;

  /** Readable bytes after the window. */
  public static final int PAD = 256;

  /** Longest line, or record with line breaks inside quotes, in bytes. */
  public static final int LONGEST = 1 << 20;

  private static final int BLOCK = 1 << 18;

  private final InputStream stream;
  private final CountingStream raw;
  private byte[] bytes = new byte[LEAD + BLOCK + PAD];
  private int start = LEAD;
  private int filled = LEAD;
  private int end = LEAD;
  private boolean exhausted;
  private Optional<String> damage = Optional.empty();
  private String remedy = "";

  Feed(InputStream stream, CountingStream raw) {
    this.stream = stream;
    this.raw = raw;
  }

  public byte[] bytes() {
    return bytes;
  }

  /** First byte of the window. */
  public int start() {
    return start;
  }

  /** First byte after the window: just after a line break. */
  public int end() {
    return end;
  }

  /** Whether the window reaches to the end of the stream. */
  public boolean exhausted() {
    return exhausted && end == filled;
  }

  /** Bytes taken from the file or stream so far, before decompression. */
  public long position() {
    return raw.count();
  }

  /** Why the stream ended before its time, if it did; what came before is good, but for the line it ended in. */
  public Optional<String> damage() {
    return damage;
  }

  /** What to do about the damage. */
  public String remedy() {
    return remedy;
  }

  /** The first bytes of the stream, without taking them: at most {@code count}. */
  public byte[] peek(int count) throws IOException {
    while (filled - start < count && !exhausted) {
      read();
    }
    return Arrays.copyOfRange(bytes, start, Math.min(filled, start + count));
  }

  /** Leaves out the first bytes, which have been looked at with {@link #peek}. */
  public void skip(int count) {
    start += count;
    end += count;
  }

  /**
   * Moves the window on.
   *
   * @param from the first byte that is still needed; everything before it is given up
   * @return whether the window has grown; if not, the stream has ended or the record at {@code from} is longer than
   *     {@link #LONGEST}
   */
  public boolean next(int from) throws IOException {
    int before = end - from;
    if (from > LEAD) {
      System.arraycopy(bytes, from, bytes, LEAD, filled - from);
      filled -= from - LEAD;
    }
    start = LEAD;
    end = LEAD + before;
    if (before >= LONGEST) {
      return false;
    }
    int searched = end;
    while (true) {
      int lineEnd = lastLineEnd(searched);
      if (lineEnd > searched) {
        end = lineEnd;
        return true;
      }
      searched = filled;
      if (exhausted) {
        return finishLastLine(before);
      }
      if (filled - LEAD >= LONGEST) {
        return false;
      }
      read();
    }
  }

  /** Gives up everything up to the next line break, which may be far off; false if the stream ended first. */
  public boolean skipLine() throws IOException {
    while (true) {
      for (int i = start; i < filled; i++) {
        if (bytes[i] == '\n') {
          start = i + 1;
          end = start;
          return true;
        }
      }
      start = LEAD;
      filled = LEAD;
      end = LEAD;
      if (exhausted) {
        return false;
      }
      read();
    }
  }

  /** Just after the last line break, or {@code searched} if there is none from there on. */
  private int lastLineEnd(int searched) {
    int at = filled;
    while (at > searched && bytes[at - 1] != '\n') {
      at--;
    }
    return at;
  }

  private boolean finishLastLine(int before) {
    if (filled == LEAD + before || damage.isPresent()) {
      end = LEAD + before;
      filled = end;
      return false;
    }
    bytes[filled++] = '\n';
    end = filled;
    return true;
  }

  private void read() throws IOException {
    if (filled + PAD >= bytes.length) {
      bytes = Arrays.copyOf(bytes, Math.max(bytes.length + BLOCK,
          Math.min(2 * bytes.length, 2 * LONGEST + LEAD + PAD)));
    }
    try {
      int count = stream.read(bytes, filled, bytes.length - PAD - filled);
      exhausted = count < 0;
      filled += Math.max(0, count);
    } catch (DamagedStream e) {
      exhausted = true;
      damage = Optional.of(e.getMessage());
      remedy = e.remedy();
    }
  }

  @Override
  public void close() throws IOException {
    stream.close();
  }
}

package dev.pawl.trace.bytes;

import com.github.luben.zstd.Zstd;
import com.github.luben.zstd.ZstdIOException;
import com.github.luben.zstd.ZstdInputStream;
import java.io.ByteArrayInputStream;
import java.io.EOFException;
import java.io.FilterInputStream;
import java.io.IOException;
import java.io.InputStream;
import java.io.SequenceInputStream;
import java.nio.charset.Charset;
import java.util.List;
import java.util.Optional;
import java.util.zip.GZIPInputStream;
import java.util.zip.ZipException;
import org.tukaani.xz.MemoryLimitException;
import org.tukaani.xz.XZIOException;
import org.tukaani.xz.XZInputStream;

/**
 * Opens streams, plain or compressed: gzip (RFC 1952), Zstandard (RFC 8878), xz and zip are known by their first bytes,
 * and so is UTF-16, which becomes UTF-8.
 */
public final class Decompression {

  /** What the names of compressed files end in. */
  public static final List<String> ENDINGS = List.of(".gz", ".zst", ".xz", ".zip");

  /** These, as a message puts them. */
  public static final String ENDINGS_IN_WORDS = String.join(", ", ENDINGS.subList(0, ENDINGS.size() - 1)) + " or "
      + ENDINGS.get(ENDINGS.size() - 1);

  private static final int SNIFFED = 6;
  private static final int BUFFER = 1 << 16;

  /** What unpacking xz may take, as for the other forms. */
  private static final int MOST_KIBIBYTES = 128 * 1024;

  private Decompression() {}

  /**
   * A feed of the decompressed bytes. Closing it closes the stream.
   *
   * @param letters how the text is written, where it is neither UTF-8 nor UTF-16
   */
  public static Feed open(InputStream stream, Optional<Charset> letters) throws IOException {
    CountingStream counted = new CountingStream(stream);
    byte[] first = counted.readNBytes(SNIFFED);
    InputStream whole = new SequenceInputStream(new ByteArrayInputStream(first), counted);
    InputStream unpacked = unpacked(first, whole);
    return new Feed(letters.isPresent() ? new SingleByteStream(unpacked, letters.get()) : new Utf16Stream(unpacked),
        counted);
  }

  private static InputStream unpacked(byte[] first, InputStream whole) throws IOException {
    if (starts(first, 0x1F, 0x8B)) {
      return new Guarded(headed(whole, stream -> new GZIPInputStream(stream, BUFFER)), "gzip");
    }
    if (starts(first, 0x28, 0xB5, 0x2F, 0xFD)) {
      return new Guarded(new ZstdInputStream(whole), "zstd");
    }
    if (starts(first, 0xFD, '7', 'z', 'X', 'Z', 0)) {
      return new Guarded(headed(whole, stream -> new XZInputStream(stream, MOST_KIBIBYTES)), "xz");
    }
    if (starts(first, 'P', 'K', 3, 4) || starts(first, 'P', 'K', 5, 6)) {
      return new Guarded(new ZippedFile(whole, first[2] == 5), "zip");
    }
    return whole;
  }

  /** Opens packed data. */
  private interface Opening {
    InputStream open(InputStream stream) throws IOException;
  }

  /** A stream that fails when it is read if its header is bad. */
  private static InputStream headed(InputStream stream, Opening opening) throws IOException {
    try {
      return opening.open(stream);
    } catch (EOFException | ZipException | XZIOException e) {
      return new Failing(e);
    }
  }

  /** Whether bytes start with those by which a form is known. */
  public static boolean starts(byte[] bytes, int... magic) {
    if (bytes.length < magic.length) {
      return false;
    }
    for (int i = 0; i < magic.length; i++) {
      if ((bytes[i] & 0xFF) != magic[i]) {
        return false;
      }
    }
    return true;
  }

  /** Tells damaged data apart from a disk that cannot be read. */
  private static final class Guarded extends FilterInputStream {

    private final String format;

    Guarded(InputStream stream, String format) {
      super(stream);
      this.format = format;
    }

    @Override
    public int read(byte[] bytes, int from, int length) throws IOException {
      try {
        return super.read(bytes, from, length);
      } catch (EOFException e) {
        throw new DamagedStream("the " + format + " data ends before its end mark", e);
      } catch (MemoryLimitException e) {
        throw new DamagedStream("the xz data was packed with a dictionary of more than 128 MiB and must be unpacked "
            + "before (xz -d)", e);
      } catch (ZstdIOException e) {
        if (e.getErrorCode() == Zstd.errFrameParameterWindowTooLarge()) {
          throw new DamagedStream("the zstd data was packed with a window of more than 128 MiB and must be unpacked"
              + " before"
              + " (zstd -d --long=31)", e);
        }
        boolean early = e.getMessage() != null && e.getMessage().contains("Truncated");
        throw new DamagedStream("the " + format + " data " + (early ? "ends before its end mark" : "is damaged"), e);
      } catch (ZipException | XZIOException e) {
        throw new DamagedStream("the " + format + " data is damaged", e);
      }
    }
  }

  /** A stream whose header was already bad. */
  private static final class Failing extends InputStream {

    private final IOException failure;

    Failing(IOException failure) {
      this.failure = failure;
    }

    @Override
    public int read() throws IOException {
      throw failure;
    }

    @Override
    public int read(byte[] bytes, int from, int length) throws IOException {
      throw failure;
    }
  }
}

package dev.pawl.trace.bytes;

import dev.pawl.grammar.source.Legible;
import java.io.EOFException;
import java.io.FilterInputStream;
import java.io.IOException;
import java.io.InputStream;
import java.util.zip.ZipEntry;
import java.util.zip.ZipInputStream;

/** The one file in a zip archive, as it is unpacked; that there is another is known when the first has ended. */
final class ZippedFile extends FilterInputStream {

  private static final int LONGEST = 60;

  private final ZipInputStream archive;
  private ZipEntry file;
  private boolean empty;

  /**
   * The file in an archive.
   *
   * @param empty whether the archive begins with its end
   */
  ZippedFile(InputStream stream, boolean empty) {
    super(new ZipInputStream(stream));
    this.empty = empty;
    this.archive = (ZipInputStream) in;
  }

  @Override
  public int read() throws IOException {
    byte[] one = new byte[1];
    return read(one, 0, 1) < 0 ? -1 : one[0] & 0xFF;
  }

  @Override
  public int read(byte[] bytes, int from, int length) throws IOException {
    try {
      if (file == null) {
        file = nextFile();
        if (file == null && !empty) {
          throw new EOFException();
        }
        if (file == null) {
          throw new DamagedStream("the zip archive holds no file", "pack the trace anew", null);
        }
      }
      int count = super.read(bytes, from, length);
      ZipEntry other = count < 0 ? nextFile() : null;
      if (other != null) {
        throw new DamagedStream("the zip archive holds more than one file: after " + quoted(file) + " comes "
            + quoted(other), "unpack it, and give its files one by one", null);
      }
      return count;
    } catch (IllegalArgumentException e) {
      throw new DamagedStream("the zip archive has a file with a name that cannot be read", "pack the trace anew", e);
    }
  }

  /** Folders are none, nor is what some systems put beside each file. */
  private ZipEntry nextFile() throws IOException {
    ZipEntry next = archive.getNextEntry();
    while (next != null && (next.isDirectory() || next.getName().startsWith("__MACOSX/"))) {
      empty = true;
      next = archive.getNextEntry();
    }
    return next;
  }

  private static String quoted(ZipEntry entry) {
    String name = Legible.of(entry.getName());
    return "'" + (name.length() > LONGEST ? name.substring(0, LONGEST) + "..." : name) + "'";
  }
}

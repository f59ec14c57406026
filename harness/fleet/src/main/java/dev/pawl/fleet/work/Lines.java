package dev.pawl.fleet.work;

import java.io.BufferedInputStream;
import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.io.Writer;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.function.IntPredicate;
import org.apache.flink.core.fs.FSDataInputStream;
import org.apache.flink.core.fs.FileStatus;
import org.apache.flink.core.fs.Path;

/**
 * The lines that workers have written: what each task came to, in files that grew by whole checkpoints. Where each line
 * stands is known, so that they are read in the order of their numbers without being held all at once.
 */
public final class Lines {

  private static final char BAD = '-';
  private static final char GOOD = '+';

  private final Map<Integer, Line> lines = new TreeMap<>();
  private int doubled;

  /** Where a line begins behind its number, and its bytes without the line break. */
  private record Line(Path file, long from, int bytes, boolean bad) {}

  /** What a task came to, as a line without its line break. */
  static String line(int number, Work.Done done) {
    return number + "\t" + (done.bad() ? BAD : GOOD) + done.words();
  }

  private Lines() {}

  /**
   * The lines of a folder; none where it is not there.
   *
   * @throws IOException if a file of it cannot be read
   */
  public static Lines in(Path folder) throws IOException {
    Lines lines = new Lines();
    if (folder.getFileSystem().exists(folder)) {
      List<FileStatus> files = new ArrayList<>(List.of(folder.getFileSystem().listStatus(folder)));
      files.sort((one, other) -> one.getPath().getName().compareTo(other.getPath().getName()));
      for (FileStatus file : files) {
        // What a checkpoint has not confirmed has a name that begins with a dot.
        if (!file.isDir() && !file.getPath().getName().startsWith(".")) {
          lines.add(file.getPath());
        }
      }
    }
    return lines;
  }

  private void add(Path file) throws IOException {
    try (InputStream in = new BufferedInputStream(file.getFileSystem().open(file), 1 << 16)) {
      long at = 0;
      int number = 0;
      for (int next = in.read(); next >= 0; next = in.read()) {
        at++;
        if (next != '\t') {
          number = number * 10 + (next - '0');
          continue;
        }
        boolean bad = in.read() == BAD;
        long from = ++at;
        for (next = in.read(); next >= 0 && next != '\n'; next = in.read()) {
          at++;
        }
        doubled += lines.put(number, new Line(file, from, (int) (at - from), bad)) == null ? 0 : 1;
        at++;
        number = 0;
      }
    }
  }

  /** How many tasks have one. */
  public int size() {
    return lines.size();
  }

  /** How many lines there are of tasks that have another. */
  public int doubled() {
    return doubled;
  }

  /** Whether a task was done; one that came to something bad may come to something better. */
  public boolean isDone(int number) {
    return lines.containsKey(number) && !lines.get(number).bad();
  }

  /** Copies the lines of tasks that were done, and are still wanted, as lines. */
  public void copy(IntPredicate wanted, Writer out) throws IOException {
    for (int number : lines.keySet()) {
      if (isDone(number) && wanted.test(number)) {
        out.write(line(number, new Work.Done(words(number), 0, false)) + "\n");
      }
    }
  }

  /** What a task came to. */
  public String words(int number) {
    Line line = lines.get(number);
    try (FSDataInputStream in = line.file().getFileSystem().open(line.file())) {
      in.seek(line.from());
      return new String(in.readNBytes(line.bytes()), StandardCharsets.UTF_8);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }
}

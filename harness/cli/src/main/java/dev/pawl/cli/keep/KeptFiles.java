package dev.pawl.cli.keep;

import dev.pawl.cli.CommandException;
import dev.pawl.run.files.FileTrouble;
import dev.pawl.trace.csv.CsvWriter;
import dev.pawl.trace.time.TimeScale;
import java.io.IOException;
import java.io.InputStream;
import java.nio.channels.FileChannel;
import java.nio.channels.OverlappingFileLockException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.LinkOption;
import java.nio.file.Path;

/**
 * What the two ways of keeping a trace share: what may not be written to, how a kept trace is known, and how a file is
 * claimed.
 */
public final class KeptFiles {

  private KeptFiles() {}

  /** A way of saying what is wrong with the file of {@code --keep}. */
  public static CommandException refusal(Path file, String why) {
    return new CommandException("--keep: " + file + ": " + why);
  }

  static CommandException trouble(Path file, IOException problem) {
    return refusal(file, FileTrouble.reason(problem));
  }

  /** Whether anything of this name is there, be it a link that leads nowhere. */
  static boolean isThere(Path file) {
    return Files.exists(file, LinkOption.NOFOLLOW_LINKS);
  }

  /** Refuses all but a file itself: what is written through a link or into a device is not seen by its name. */
  static void requireFileItself(Path file) {
    if (!Files.isRegularFile(file, LinkOption.NOFOLLOW_LINKS)) {
      throw refusal(file, Files.isSymbolicLink(file) ? "is a link; name the file itself"
          : "is no file that a trace could be kept in");
    }
  }

  /**
   * Whether a file begins as the traces that are kept do, on one of the scales; one that ends within its first line
   * does too.
   */
  static boolean beginsAsKept(Path file, TimeScale... scales) throws IOException {
    try (InputStream in = Files.newInputStream(file)) {
      return beginsAsKept(in, scales);
    }
  }

  static boolean beginsAsKept(InputStream in, TimeScale... scales) throws IOException {
    String start = new String(in.readNBytes(CsvWriter.header(TimeScale.NANOSECONDS).length() + 1),
        StandardCharsets.ISO_8859_1);
    for (TimeScale scale : scales) {
      String header = CsvWriter.header(scale) + "\n";
      if (start.startsWith(header) || header.startsWith(start)) {
        return true;
      }
    }
    return false;
  }

  /** Claims a file until its channel is closed; false if another pawl has it, in this process or not. */
  static boolean isClaimed(FileChannel channel) throws IOException {
    try {
      return channel.tryLock() != null;
    } catch (OverlappingFileLockException e) {
      return false;
    }
  }

  /** The same; says so at once if another pawl has it. */
  static void claim(FileChannel channel, Path file) throws IOException {
    if (!isClaimed(channel)) {
      channel.close();
      throw refusal(file, "another pawl is writing it");
    }
  }
}
